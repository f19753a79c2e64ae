"""Compares panes with their openings let out by the margin, by shapely.

    panes.py PANES.json

PANES.json is a list of {"name", "opening", "pane", "margin"}: rings in mm. Prints what is wrong and ends with status 1 if
anything is.
"""

import json
import sys

from shapely import Polygon

NEAR = 0.01  # mm: arcs are flattened within 0.002 mm, which turns the tips beside them a little


def main():
    faults = []
    with open(sys.argv[1], encoding="utf-8") as file:
        panes = json.load(file)
    for pane in panes:
        opening, found = Polygon(pane["opening"]), Polygon(pane["pane"])
        wanted = opening.buffer(pane["margin"], join_style="mitre", mitre_limit=5.0)
        off = found.symmetric_difference(wanted).area
        if not found.is_valid or off > NEAR * wanted.length:
            faults.append(f"{pane['name']}: {off:.3f} mm² off, {found.area:.3f} and not {wanted.area:.3f}")
        if not found.buffer(1e-6).covers(opening):
            faults.append(f"{pane['name']}: it does not cover its opening")
    print("\n".join(faults) or f"{len(panes)} panes")
    return 1 if faults or not panes else 0


sys.exit(main())
