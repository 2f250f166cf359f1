"""Makes gas_density.csv: density of breathing gases from CoolProp 8.0.0 (pip install CoolProp==8.0.0).

    python gas_density.py > gas_density.csv

Pure gases and dry air (pseudo-pure fluid): HEOS. Mixtures: HEOS, gas phase imposed.
Pressure is gauge; absolute = gauge + 1.01325 bar. Density in kg/m3.
"""

import CoolProp
from CoolProp.CoolProp import AbstractState

BAR = (50, 100, 150, 200, 207, 232, 300)
CELSIUS = (-5, 15, 20, 50)
GASES = (
    ("air", None),
    ("oxygen", (1, 0, 0, 0)),
    ("nitrogen", (0, 1, 0, 0)),
    ("helium", (0, 0, 1, 0)),
    ("argon", (0, 0, 0, 1)),
    ("nitrox 32", (0.32, 0.68, 0, 0)),
    ("nitrox 36", (0.36, 0.64, 0, 0)),
    ("nitrox 50", (0.50, 0.50, 0, 0)),
    ("trimix 18/45", (0.18, 0.37, 0.45, 0)),
    ("trimix 21/35", (0.21, 0.44, 0.35, 0)),
    ("trimix 10/70", (0.10, 0.20, 0.70, 0)),
    ("heliox 20/80", (0.20, 0, 0.80, 0)),
)
NAMES = ("Oxygen", "Nitrogen", "Helium", "Argon")


def state(fractions):
    if fractions is None:
        return AbstractState("HEOS", "Air")
    present = [(n, x) for n, x in zip(NAMES, fractions) if x > 0]
    s = AbstractState("HEOS", "&".join(n for n, _ in present))
    if len(present) > 1:
        s.set_mole_fractions([x for _, x in present])
        s.specify_phase(CoolProp.iphase_gas)
    return s


print(f"# Made by gas_density.py with CoolProp {CoolProp.__version__}, HEOS equations of state.")
print("gas,oxygen,nitrogen,helium,argon,temperature_c,gauge_bar,density_kg_m3")
for name, fractions in GASES:
    s = state(fractions)
    parts = fractions or ("", "", "", "")
    for t in CELSIUS:
        for p in BAR:
            s.update(CoolProp.PT_INPUTS, (p + 1.01325) * 1e5, t + 273.15)
            print(",".join(map(str, (name, *parts, t, p, f"{s.rhomass():.3f}"))))
