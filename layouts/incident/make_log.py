"""Makes motion.csv of the demonstration incident: a synthetic log, measured nowhere.

The boat lies drifting. A small swell rolls her with 4 degrees at her own period of 3.4 s; at 40 s the wake of a
passing boat arrives, whose crests meet her at nearly that period, so that the roll grows to 13 degrees and dies
away. With t in seconds:

    roll(t) = 4 sin(2 pi t / 3.4) + 9 exp(-((t - 52) / 6)^2) sin(2 pi (t - 40) / 3.4)      degrees
    pitch(t) = 1.5 sin(2 pi t / 2.6) + 1.0 exp(-((t - 50) / 5)^2) sin(2 pi (t - 40) / 2.9)  degrees
    az(t) = 0.05 sin(2 pi t / 3.1) + 0.06 exp(-((t - 50) / 6)^2) sin(2 pi (t - 40) / 3.1)   g

Sampled at 20 Hz for 90 s and written to three decimals. Run it in this folder: python3 make_log.py
"""

from math import exp, pi, sin


def sample(t):
    wake = exp(-(((t - 52) / 6) ** 2))
    roll = 4 * sin(2 * pi * t / 3.4) + 9 * wake * sin(2 * pi * (t - 40) / 3.4)
    pitch = 1.5 * sin(2 * pi * t / 2.6) + exp(-(((t - 50) / 5) ** 2)) * sin(2 * pi * (t - 40) / 2.9)
    az = 0.05 * sin(2 * pi * t / 3.1) + 0.06 * exp(-(((t - 50) / 6) ** 2)) * sin(2 * pi * (t - 40) / 3.1)
    return roll, pitch, az


with open("motion.csv", "w", newline="\n") as out:
    out.write("time_s,roll_deg,pitch_deg,az_g\n")
    for step in range(90 * 20 + 1):
        t = step / 20
        roll, pitch, az = sample(t)
        out.write(f"{t:.2f},{roll:.3f},{pitch:.3f},{az:.4f}\n")
