"""Puts a house together from its printed pack alone, as somebody would who has nothing else.

    blind_build.py PACK.pdf BUILT.json

Writes where every corner of every piece came to stand, on the base board, in mm; says what does not close.
"""

import json
import sys

from blind.house import put_together
from blind.joints import at
from blind.sheets import Pack
from blind.tables import Facts


def corners(piece, pose):
    rings = [piece.ring, *piece.holes]
    return [[[list(map(float, pose.house(at(p, z)))) for p in ring] for ring in rings] for z in (0.0, -piece.thick)]


def main():
    pack = Pack(sys.argv[1])
    facts = Facts(pack)
    building = put_together(pack, facts)
    built = {n: corners(building.pieces[n], pose) for n, pose in building.poses.items()}
    with open(sys.argv[2], "w", encoding="utf-8") as file:
        json.dump(built, file)
    for letter, miss in building.misfits:
        print(f"joint {letter} does not close by {miss:.2f} mm")
    print(f"not drawn on both pieces: {', '.join(building.unread) or 'none'}")
    print(f"{len(built)} of {len(facts.template)} pieces stand, {len(building.misfits)} joints do not close")


main()
