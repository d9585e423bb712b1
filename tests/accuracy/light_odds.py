#!/usr/bin/env python3
"""Learns the weights of colorlib/calibration/light_odds.cpp from simulated photos of the two pools, and prints them.

    for c in two-lights-phone daylight-phone lamp-phone local-tone fluorescent-phone thin-paper foil-phone curled; do
      for pool in tuning broad; do accuracy_table $pool 100 8001 $c --budget > $pool-$c.txt; done; done
    light_odds.py tuning-*.txt broad-*.txt

A multinomial logistic regression of daylight, lamp (warm or cool) and tube on the shares of the three channels in X, Y and Z at
white; a photo under daylight and a lamp counts half for each. Afterwards the constants of `LackOfFit` are set so that, by light, 95 %
of the two pools' readings are covered. Needs numpy and scipy. Never give it held-out scenes.
"""
import sys

import numpy as np
from scipy.optimize import minimize

PENALTY = 1e-4        # on the square of the weights, evidence in units of its standard deviation
FIRST_SHARE = 16  # of the numbers of a BUDGET line: where the nine shares begin
USED = [0, 2, 3, 5, 6, 8]  # red and blue of X, Y and Z; green is the rest


def kind(light):
    if " + " in light:
        return [0.5, 0.5, 0]
    if "daylight" in light:
        return [1, 0, 0]
    return [0, 1, 0] if light.startswith(("LED", "incandescent")) else [0, 0, 1]


def photos(paths):
    """One row a photo: shares; whether daylight, lamp, tube."""
    shares, kinds, seen = [], [], set()
    for path in paths:
        for line in open(path, encoding="utf-8"):
            if not line.startswith("BUDGET"):
                continue
            words, light = line.rsplit(" light '", 1)
            words = words.split()
            if (path, words[2]) in seen:
                continue
            seen.add((path, words[2]))
            numbers = [float(word) for word in words[4 + FIRST_SHARE:4 + FIRST_SHARE + 9]]
            shares.append([numbers[i] for i in USED])
            kinds.append(kind(light))
    return np.array(shares), np.array(kinds, float)


def fit(x, y):
    count = x.shape[1]

    def loss(w):
        w = w.reshape(count + 1, 3)
        z = x @ w[1:] + w[0]
        p = np.exp(z - z.max(1, keepdims=True))
        p /= p.sum(1, keepdims=True)
        error = (p - y) / len(y)
        slope = np.vstack([error.sum(0), x.T @ error + 2 * PENALTY * w[1:]])
        return -(y * np.log(p + 1e-12)).sum() / len(y) + PENALTY * (w[1:] ** 2).sum(), slope.ravel()

    return minimize(loss, np.zeros((count + 1) * 3), jac=True, method="L-BFGS-B").x.reshape(count + 1, 3)


def main(paths):
    shares, kinds = photos(paths)
    mean, spread = shares.mean(0), shares.std(0)
    w = fit((shares - mean) / spread, kinds)
    weights = w[1:] / spread[:, None]
    constant = w[0] - mean @ weights
    print(f"{len(shares)} photos; constant, red and blue of X, of Y, of Z")
    for j, name in ((1, "for_lamp"), (2, "for_tube")):
        print(name, f"{constant[j] - constant[0]:.2f}", *(f"{v:.1f}" for v in weights[:, j] - weights[:, 0]))


if __name__ == "__main__":
    main(sys.argv[1:])
