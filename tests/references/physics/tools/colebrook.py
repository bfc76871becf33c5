#!/usr/bin/python3
"""Makes ../colebrook.json: Colebrook's equation solved exactly (Lambert W at 50 digits) by python3-fluids."""
import json
import pathlib

from fluids.friction import Colebrook
from versions import versions

# Only products, quotients and powers of two, which come out the same to the last bit in any language; the test that
# reads the file has the same two formulas.
reynolds = [4000 * 2 ** (i // 7) * (1 + (i % 7 + 0.5) / 7) for i in range(102)]
roughness = [0.05 * (j / 100) * (j / 100) * (j / 100) for j in range(101)]
data = {
    "source": "C. F. Colebrook (1939), equation solved by fluids.friction.Colebrook(Re, eD, tol=0), mpmath at 50 digits",
    "confirmed": "computed with a library",
    "tolerance": "1e-9 relative; the values carry 13 digits, the library's own error reaches 2.5e-11 at the last points "
    "(against the equation's root by mpmath at 40 digits)",
    "generator": ["tools/colebrook.py", *versions("python3-fluids", "python3-mpmath")],
    "points": "row i: Re = 4000 * 2^floor(i/7) * (1 + (i mod 7 + 0.5)/7); in it value j: eps/D = 0.05 * (j/100)^3",
    "columns": ["factor"],
}
rows = [[float(f"{Colebrook(re, rr, tol=0):.13g}") for rr in roughness] for re in reynolds]
head = json.dumps(data, indent=1)[:-2]
body = ",\n".join(json.dumps(row, separators=(",", ":")) for row in rows)
pathlib.Path(__file__).parent.parent.joinpath("colebrook.json").write_text(f'{head},\n "rows": [\n{body}\n]}}\n')
