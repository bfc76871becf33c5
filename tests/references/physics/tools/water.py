#!/usr/bin/python3
"""Makes ../water.json: liquid water at 101.325 kPa by the full IAPWS-95 formulation, from python3-iapws."""
import json
import pathlib

from iapws import IAPWS95
from versions import versions

rows = []
for t in [0.01, *range(1, 100)]:
    w = IAPWS95(T=t + 273.15, P=0.101325)
    rows.append([t, float(f"{w.rho:.8g}"), float(f"{w.mu:.7g}"), float(f"{w.w:.7g}")])
data = {
    "source": "IAPWS-95 (density, sound speed) and IAPWS R12-08 (viscosity) by iapws.IAPWS95 at 0.101325 MPa",
    "confirmed": "computed with a library",
    "tolerance": "relative: density 2e-5, viscosity 5e-5, sound speed 1e-4; the kernels' formulas are simpler",
    "generator": ["tools/water.py", *versions("python3-iapws", "python3-scipy")],
    "columns": ["temperature_C", "density_kg_per_m3", "viscosity_Pa_s", "sound_m_per_s"],
}
text = json.dumps(data, indent=1)[:-2]
body = ",\n".join(json.dumps(row) for row in rows)
pathlib.Path(__file__).parent.parent.joinpath("water.json").write_text(f'{text},\n "rows": [\n{body}\n]}}\n')
