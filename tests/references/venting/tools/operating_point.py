"""Times operating points of a blower on a run with python3-fluids and scipy's brentq; prints one JSON line.

The same task as bench-operating-point.ts: friction by Colebrook's equation, a test curve, roots over 1000 runs.
"""
import json
import math
import time

import fluids
from fluids.friction import Colebrook
from scipy.optimize import brentq

RHO, MU, D, EPS = 1.2041, 1.813e-5, 0.1016, 9e-5
CFM, INWC = 0.3048**3 / 60, 249.08891
AREA = math.pi / 4 * D * D


def fan(q):
    return 0.9 * INWC * (1 - (q / (230 * CFM)) ** 2)


def loss(q, length, k):
    v = q / AREA
    re = RHO * v * D / MU
    f = Colebrook(re, EPS / D) if re > 4000 else 64 / max(re, 1e-9)
    return (f * length / D + k) * RHO * v * v / 2


runs = [(1 + 0.03 * i, 1.5 + 0.002 * i) for i in range(1000)]
start = time.perf_counter()
flows = [brentq(lambda q: fan(q) - loss(q, length, k), 40 * CFM, 230 * CFM, xtol=1e-13) for length, k in runs]
seconds = time.perf_counter() - start
print(json.dumps({"fluids": fluids.__version__, "perSecond": len(runs) / seconds, "sum": sum(flows)}))
