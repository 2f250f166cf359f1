"""Values for ../survey.rs: least squares by SciPy, projective maps by scikit-image.

Run with: python3 survey.py   (needs numpy, scipy, scikit-image; versions are printed)

1. Trilateration with the data of C. D. Ghilani, Adjustment Computations, chapter 14 (observed distances
   AU, BU, CU and the control coordinates, in feet), unit weights.
2. A deck: two known corners of the transom, two unknown corners, five tapes, two stations; weights.
3. Homography through four corners, applied to five pixels.
"""

import numpy as np
import scipy
import skimage
from scipy.optimize import least_squares
from skimage.transform import estimate_transform

print("numpy", np.__version__, "scipy", scipy.__version__, "scikit-image", skimage.__version__)


def solve(residuals, start):
    found = least_squares(residuals, start, method="lm", xtol=1e-15, ftol=1e-15, gtol=1e-15)
    covariance = np.linalg.inv(found.jac.T @ found.jac)
    return found.x, covariance, residuals(found.x)


def row(name, values):
    print(name, ", ".join(f"{v:.9f}" for v in np.ravel(values)))


controls = np.array([[865.40, 4527.15], [2432.55, 2047.25], [2865.22, 27.15]])
read = np.array([6049.00, 4736.83, 5446.49])
x, c, v = solve(lambda p: read - np.hypot(*(controls - p).T), [6900.0, 3900.0])
row("ghilani point", x)
row("ghilani covariance xx xy yy", [c[0, 0], c[0, 1], c[1, 1]])
row("ghilani residuals", v)

port, starboard = np.array([0.0, 1.25]), np.array([0.0, -1.25])
lengths = np.array([4.012, 4.713, 4.700, 4.005, 2.431])
sigma = np.array([0.003, 0.003, 0.003, 0.003, 0.002, 0.005, 0.005])


def deck(p):
    a, b = p[:2], p[2:]
    computed = [
        np.hypot(*(a - port)),
        np.hypot(*(b - port)),
        np.hypot(*(a - starboard)),
        np.hypot(*(b - starboard)),
        np.hypot(*(a - b)),
        a[0],
        b[0],
    ]
    return (np.append(lengths, [4.010, 4.008]) - computed) / sigma


x, c, v = solve(deck, [4.0, 1.2, 4.0, -1.2])
row("deck points", x)
row("deck variances", np.diag(c))
row("deck residuals", v * sigma)

pixels = np.array([[812.0, 431.0], [2290.0, 468.0], [2871.0, 1985.0], [298.0, 1902.0]])
plan = np.array([[3.0, 0.9], [3.0, -0.9], [0.0, -0.9], [0.0, 0.9]])
made = estimate_transform("projective", pixels, plan)
row("homography", made.params / made.params[2, 2])
probes = np.array([[1500.0, 1000.0], [812.0, 431.0], [100.0, 2100.0], [2600.0, 900.0], [1550.0, 300.0]])
row("homography probes", made(probes))
