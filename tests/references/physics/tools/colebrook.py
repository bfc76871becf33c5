#!/usr/bin/python3
"""Makes ../colebrook.json: Colebrook's equation solved exactly (Lambert W at 50 digits) by python3-fluids."""
import json
import math
import pathlib
import random

from fluids.friction import Colebrook
from versions import versions

random.seed(1939)
points = []
for roughness in [0, 1e-7, 1e-6, 1e-5, 5e-5, 1e-4, 3e-4, 1e-3, 3e-3, 1e-2, 3e-2, 5e-2]:
    for k in range(25):
        points.append((4e3 * (1e8 / 4e3) ** (k / 24), roughness))
while len(points) < 1500:
    re = 10 ** random.uniform(math.log10(4e3), 8)
    points.append((re, random.choice([0.05 * random.random(), 10 ** random.uniform(-7, math.log10(0.05))])))
points = [(float(f"{re:.6g}"), float(f"{rr:.6g}")) for re, rr in points]
data = {
    "source": "C. F. Colebrook (1939), equation solved by fluids.friction.Colebrook(Re, eD, tol=0), mpmath at 50 digits",
    "confirmed": "computed with a library",
    "tolerance": "1e-9 relative; the values carry 12 digits",
    "generator": ["tools/colebrook.py", *versions("python3-fluids", "python3-mpmath")],
    "columns": ["re", "relativeRoughness", "factor"],
    "rows": [[re, rr, float(f"{Colebrook(re, rr, tol=0):.12g}")] for re, rr in points],
}
text = json.dumps(data, indent=1)
head, rows = text.split('"rows": ', 1)
body = ",\n".join(json.dumps(row) for row in data["rows"])
pathlib.Path(__file__).parent.parent.joinpath("colebrook.json").write_text(f'{head}"rows": [\n{body}\n]}}\n')
