#!/usr/bin/env python3
"""Trains the judge of mirrored light and writes colorlib/calibration/specular_judge_weights_internal.hpp.

    made() { for pool in tuning broad; do glint_samples $pool $pool-$1-$2-$4.samples $1 $2 $3 $4 $5; done; }
    for c in foil-phone foil-linear; do made $c 3001 50; made $c 4001 60; made $c 5001 14 4000; made $c 6001 12 1000; done
    for c in daylight-phone lamp-phone daylight-linear lamp-linear; do made $c 3001 8; done
    for c in raised thin-paper thin-two-backings; do made $c 3001 8; made $c 3001 8 linear; done
    glint_judge.py colorlib/calibration/specular_judge_weights_internal.hpp *.samples

The judge is one layer of tanh units, fitted to the simulator's truth by least log loss. Every fourth lot of six regions (mostly a
scene) is kept from the fit; on the foil ones among these (files with `foil` in their name) the threshold is set. Takes ten minutes.
Needs numpy and scipy. Never give it held-out scenes.
"""
import os
import sys

import numpy as np
from scipy.optimize import minimize

COUNT, UNITS, ROUNDS = 17, 8, 150  # pieces of evidence; units; steps of L-BFGS
PENALTY = 1e-5                     # on the square of the weights, evidence in units of its standard deviation
PRECISION = 0.92                   # on the foil scenes kept from the fit: the aim is 0.9
REGIONS_A_LOT = 6
PLAIN_SHARE = 0.15                 # of pixels with hardly an effect on them or beside them that are fitted to
CHUNK = 100000


def regions_of(path):
    data, at = open(path, "rb").read(), 0
    while at < len(data):
        pixels, developed = np.frombuffer(data, np.int32, 2, at)
        values = np.frombuffer(data, np.float32, (COUNT + 2) * pixels, at + 8).reshape(pixels, COUNT + 2)
        yield bool(developed), values
        at += 8 + 4 * values.size


def load(paths, developed):
    """Verdict (0 body, 1 by evidence, 2 glare), evidence, truth; whether kept from the fit, whether foil."""
    parts, kept, foil = [], [], []
    for path in paths:
        for index, (is_developed, values) in enumerate(regions_of(path)):
            if is_developed != developed:
                continue
            parts.append(values)
            kept.append(np.full(len(values), index // REGIONS_A_LOT % 4 == 0))
            foil.append(np.full(len(values), "foil" in os.path.basename(path)))
    values = np.concatenate(parts)
    return values[:, 0], values[:, 1:-1], values[:, -1] > 0.5, np.concatenate(kept), np.concatenate(foil)


def parts_of(p):
    split = np.split(p, [COUNT * UNITS, COUNT * UNITS + UNITS, COUNT * UNITS + 2 * UNITS])
    return split[0].reshape(COUNT, UNITS), split[1], split[2], split[3][0]


def log_odds(p, x):
    weights, start, share, all_start = parts_of(p.astype(np.float32))
    return np.concatenate([np.tanh(x[i:i + CHUNK] @ weights + start) @ share + all_start for i in range(0, len(x), CHUNK)])


def fit(x, truth, importance):
    random = np.random.default_rng(0)
    importance = (importance / importance.sum()).astype(np.float32)
    truth = truth.astype(np.float32)

    def loss(p):
        weights, start, share, all_start = parts_of(p.astype(np.float32))
        total, gradient = 0.0, np.zeros(len(p))
        for i in range(0, len(x), CHUNK):
            part, y, w = x[i:i + CHUNK], truth[i:i + CHUNK], importance[i:i + CHUNK]
            unit = np.tanh(part @ weights + start)
            odds = unit @ share + all_start
            total += float((w * (np.logaddexp(0, odds) - y * odds)).sum(dtype=float))
            d_odds = w * (1 / (1 + np.exp(-odds)) - y)
            d_unit = d_odds[:, None] * share * (1 - unit * unit)
            gradient += np.concatenate([(part.T @ d_unit).ravel(), d_unit.sum(0), unit.T @ d_odds, [d_odds.sum()]])
        return total + PENALTY / 2 * (p @ p), gradient + PENALTY * p

    p = np.concatenate([random.normal(0, COUNT**-0.5, COUNT * UNITS), random.normal(0, 0.3, UNITS),
                        random.normal(0, UNITS**-0.5, UNITS), [-2.0]])
    return minimize(loss, p, jac=True, method="L-BFGS-B", options={"maxiter": ROUNDS, "maxfun": 2 * ROUNDS}).x


def threshold_for(odds, truth):
    """Lowest odds at which what is found is still right often enough; the recall there."""
    order = np.argsort(-odds)
    right = np.cumsum(truth[order])
    last = np.nonzero(right >= PRECISION * np.arange(1, len(order) + 1))[0][-1]
    return odds[order[last]], right[last] / truth.sum()


def judge(paths, developed):
    verdict, evidence, truth, kept, foil = load(paths, developed)
    asked = verdict == 1
    plain = (evidence[:, 3] < 0.35) & (evidence[:, 7] < 0.5) & ~truth
    use = asked & ~kept & (~plain | (np.random.default_rng(1).random(len(truth)) < PLAIN_SHARE))
    importance = np.where(plain[use], 1 / PLAIN_SHARE, 1.0)
    middle = np.average(evidence[use], axis=0, weights=importance)
    spread = np.sqrt(np.average((evidence[use] - middle)**2, axis=0, weights=importance))
    p = fit(((evidence[use] - middle) / spread).astype(np.float32), truth[use], importance)
    odds = np.where(verdict == 2, 99.0, -99.0)
    odds[asked] = log_odds(p, ((evidence[asked] - middle) / spread).astype(np.float32))
    threshold, recall = threshold_for(odds[kept & foil], truth[kept & foil])
    print(f"developed {developed}: {use.sum()} pixels fitted, recall {recall:.4f} at precision {PRECISION} on foil kept from the fit")
    weights, start, share, all_start = parts_of(p)
    weights = weights / spread[:, None]
    return threshold, all_start, share, start - middle @ weights, weights


def as_cpp(name, trained):
    threshold, all_start, share, start, weights = trained
    row = lambda values: ", ".join(f"{v:.5g}f" if any(c in f"{v:.5g}" for c in ".e") else f"{v:.5g}.0f" for v in values)
    table = ",\n".join(f"      {{{row(weights[k])}}}" for k in range(COUNT))
    return (f"constexpr SpecularJudge {name}{{\n    {threshold:.4g}, {all_start:.5g},\n    {{{row(share)}}},\n    {{{row(start)}}},\n"
            f"    {{{{{table.lstrip()}}}}}}};")


def main():
    out, paths = sys.argv[1], sys.argv[2:]
    text = f"""#pragma once
/// Weights of the judge of mirrored light. Written by tests/accuracy/glint_judge.py from simulated
/// photographs of the pools `tuning` and `broad`; do not edit.

#include <array>
#include <colorlib/calibration/specular_judge_internal.hpp>

namespace colorlib {{

// Log odds are `start` + sum over units of share * tanh(unit's start + sum over the evidence of weight *
// evidence). Weights: a row for each piece of evidence, in the order of `Evidence`, a column for each unit.
using UnitValues = std::array<float, {UNITS}>;
struct SpecularJudge {{
  double threshold, start;
  UnitValues shares, starts;
  std::array<UnitValues, evidence_count> weights;
}};

// clang-format off
{as_cpp("judge_linear", judge(paths, False))}
{as_cpp("judge_developed", judge(paths, True))}
// clang-format on

}}  // namespace colorlib
"""
    with open(out, "w") as file:
        file.write(text)


if __name__ == "__main__":
    main()
