#!/usr/bin/env python3
"""Learns the weights of colorlib/calibration/light_odds.cpp from simulated photos of the two pools, and prints them.

    for c in two-lights-phone daylight-phone lamp-phone local-tone fluorescent-phone thin-paper foil-phone curled; do
      for pool in tuning broad; do accuracy_table $pool 100 8001 $c --budget > $pool-$c.txt; done; done
    light_odds.py tuning-*.txt broad-*.txt
    for c in daylight-linear lamp-linear fluorescent-phone foil-linear thin-paper curled; do
      for pool in tuning broad; do accuracy_table $pool 100 8001 $c --raw --budget > raw-$pool-$c.txt; done; done
    light_odds.py raw-*.txt

A multinomial logistic regression of daylight, lamp (warm or cool) and tube: for developed photos on the shares of the three channels
in X, Y and Z at white, where a photo under daylight and a lamp counts half for each; for raw ones on the white against the camera's own
in daylight and the shares in X, under one light. Afterwards the constants of `LackOfFit` are set so that, by light, 95 % of the two
pools' readings are covered. Needs numpy and scipy. Never give it held-out scenes.
"""
import sys

import numpy as np
from scipy.optimize import minimize

PENALTY, RAW_PENALTY = 1e-4, 1e-3  # on the square of the weights, evidence in units of its standard deviation
FIRST_SHARE = 16  # of the numbers of a BUDGET line: where the nine shares begin
USED = [0, 2, 3, 5, 6, 8]  # red and blue of X, Y and Z; green is the rest
RAW_USED = [10, 11, 0, 2]  # ln red/green and blue/green of the white against daylight's, red and blue of X


def kind(light):
    if " + " in light:
        return [0.5, 0.5, 0]
    if "daylight" in light:
        return [1, 0, 0]
    return [0, 1, 0] if light.startswith(("LED", "incandescent")) else [0, 0, 1]


def photos(paths):
    """One row a photo: shares, the change of tint, the white; whether daylight, lamp, tube."""
    evidence, kinds, seen = [], [], set()
    for path in paths:
        for line in open(path, encoding="utf-8"):
            if not line.startswith("BUDGET"):
                continue
            words, light = line.rsplit(" light '", 1)
            words = words.split()
            if (path, words[2]) in seen:
                continue
            seen.add((path, words[2]))
            evidence.append([float(word) for word in words[4 + FIRST_SHARE:4 + FIRST_SHARE + 12]])
            kinds.append(kind(light))
    return np.array(evidence), np.array(kinds, float)


def fit(x, y, penalty):
    count = x.shape[1]

    def loss(w):
        w = w.reshape(count + 1, 3)
        z = x @ w[1:] + w[0]
        p = np.exp(z - z.max(1, keepdims=True))
        p /= p.sum(1, keepdims=True)
        error = (p - y) / len(y)
        slope = np.vstack([error.sum(0), x.T @ error + 2 * penalty * w[1:]])
        return -(y * np.log(p + 1e-12)).sum() / len(y) + penalty * (w[1:] ** 2).sum(), slope.ravel()

    return minimize(loss, np.zeros((count + 1) * 3), jac=True, method="L-BFGS-B").x.reshape(count + 1, 3)


def main(paths):
    evidence, kinds = photos(paths)
    raw = bool(np.any(evidence[:, 10:]))
    if raw:
        one_light = kinds.max(1) == 1
        evidence, kinds = evidence[one_light], kinds[one_light]
    used = evidence[:, RAW_USED if raw else USED]
    mean, spread = used.mean(0), used.std(0)
    w = fit((used - mean) / spread, kinds, RAW_PENALTY if raw else PENALTY)
    weights = w[1:] / spread[:, None]
    constant = w[0] - mean @ weights
    print(f"{len(used)} photos; constant,", "white's red and blue, red and blue of X" if raw else "red and blue of X, of Y, of Z")
    for j, name in ((1, "lamp"), (2, "tube")):
        print(name, f"{constant[j] - constant[0]:.2f}", *(f"{v:.1f}" for v in weights[:, j] - weights[:, 0]))


if __name__ == "__main__":
    main(sys.argv[1:])
