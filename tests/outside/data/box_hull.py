"""Roll, sway and heave of a simple box hull in beam seas, by a panel method (linear potential flow).

Writes box_hull.csv beside this file. Made with capytaine 3.0.0 (pip install capytaine==3.0.0); deep water, no
speed. The hull is a box 14 m long, 4.6 m wide and 1.0 m deep in the water, centre of gravity on the waterline
plane's vertical axis so that GM is 0.9 m, radius of gyration 0.40 of the beam. Linear roll damping is added to what
the waves take away so that the whole is 0.10 (and 0.15) of critical at the natural period.

Columns: damping ratio; wave frequency, rad/s; roll, sway and heave, each as amplitude and phase (degrees) for a
wave of 1 m amplitude: roll in rad, sway and heave in m, phases against the surface at the middle of the boat.
Frame: y to port, z up; waves run towards +y; roll > 0 lifts the port side. A comment line holds the natural roll
period with its added inertia.
"""

import logging
from pathlib import Path

import capytaine as cpt
import numpy as np

LENGTH, BEAM, DRAUGHT = 14.0, 4.6, 1.0
GM, GYRADIUS = 0.9, 0.40 * BEAM
RHO, G = 1025.0, 9.80665
DAMPING = (0.10, 0.15)
OMEGA = np.round(np.concatenate([np.arange(0.30, 1.0, 0.1), np.arange(1.0, 2.4, 0.05), np.arange(2.4, 4.01, 0.1)]), 3)
DOFS = ["Sway", "Heave", "Roll"]


def body():
    # Keel up to the centre of gravity: KM = draught / 2 + beam^2 / (12 draught) for a box.
    km = DRAUGHT / 2 + BEAM**2 / (12 * DRAUGHT)
    centre = (0.0, 0.0, km - GM - DRAUGHT)
    mesh = cpt.mesh_parallelepiped(
        size=(LENGTH, BEAM, 2 * DRAUGHT), center=(0, 0, 0), resolution=(42, 16, 10)
    ).immersed_part()
    lid = mesh.generate_lid(z=-0.02)
    dofs = cpt.rigid_body_dofs(only=DOFS, rotation_center=centre)
    return cpt.FloatingBody(mesh=mesh, lid_mesh=lid, dofs=dofs, center_of_mass=centre)


def main():
    cpt.set_logging(logging.WARNING)
    box = body()
    mass = RHO * LENGTH * BEAM * DRAUGHT
    inertia = np.diag([mass, mass, mass * GYRADIUS**2])
    stiffness = np.diag([0.0, RHO * G * LENGTH * BEAM, mass * G * GM])
    solver = cpt.BEMSolver()
    added, waves, forces = [], [], []
    for omega in OMEGA:
        column = {}
        for dof in DOFS:
            problem = cpt.RadiationProblem(
                body=box, radiating_dof=dof, omega=omega, rho=RHO, g=G, water_depth=np.inf
            )
            column[dof] = solver.solve(problem, keep_details=False)
        added.append([[column[j].added_mass[i] for j in DOFS] for i in DOFS])
        waves.append([[column[j].radiation_damping[i] for j in DOFS] for i in DOFS])
        problem = cpt.DiffractionProblem(
            body=box, omega=omega, wave_direction=np.pi / 2, rho=RHO, g=G, water_depth=np.inf
        )
        result = solver.solve(problem, keep_details=False)
        froude_krylov = cpt.bem.airy_waves.froude_krylov_force(problem)
        forces.append([result.forces[i] + froude_krylov[i] for i in DOFS])
    added, waves, forces = np.array(added), np.array(waves), np.array(forces)

    # Natural period of roll alone: w^2 (I + A(w)) = stiffness.
    natural = np.sqrt(stiffness[2, 2] / inertia[2, 2])
    for _ in range(60):
        a44 = np.interp(natural, OMEGA, added[:, 2, 2])
        natural = np.sqrt(stiffness[2, 2] / (inertia[2, 2] + a44))
    a44, b44 = np.interp(natural, OMEGA, added[:, 2, 2]), np.interp(natural, OMEGA, waves[:, 2, 2])
    critical = 2 * (inertia[2, 2] + a44) * natural

    lines = [f"# capytaine {cpt.__version__}; natural roll period {2 * np.pi / natural:.5f} s; "
             f"damping by waves alone {b44 / critical:.5f} of critical"]
    lines.append("damping_ratio,omega_rad_s,roll_rad,roll_deg_phase,sway_m,sway_deg_phase,heave_m,heave_deg_phase")
    for ratio in DAMPING:
        extra = np.zeros((3, 3))
        extra[2, 2] = max(0.0, ratio * critical - b44)
        for index, omega in enumerate(OMEGA):
            dynamic = (
                -(omega**2) * (inertia + added[index]) - 1j * omega * (waves[index] + extra) + stiffness
            )
            sway, heave, roll = np.linalg.solve(dynamic, forces[index])
            cells = [f"{ratio:.2f}", f"{omega:.3f}"]
            for value in (roll, sway, heave):
                cells += [f"{abs(value):.6f}", f"{np.degrees(np.angle(value)):.3f}"]
            lines.append(",".join(cells))
    Path(__file__).with_suffix(".csv").write_text("\n".join(lines) + "\n")


main()
