"""The base-board plan at full scale: where the feet of walls stand, by letter, and on which side the house is."""

import re

from geometry import distance, length, merged, sub
from blind.sheets import FINE, arrow_beside, belongs, is_stand, letter_groups, pointed, pointers


def tiles(pack):
    return pack.titled(r"^base board, tile \d+ of \d+$")


def assembled(sheets):
    """How far each sheet is moved so that like marks lie on like marks."""
    moves = {0: (0.0, 0.0)}
    while len(moves) < len(sheets):
        for k, sheet in enumerate(sheets):
            shared = [(j, m) for j in moves for m in sheet.marks.keys() & sheets[j].marks.keys()]
            if k in moves or not shared:
                continue
            shifts = [(sheets[j].marks[m][0] + moves[j][0] - sheet.marks[m][0], sheets[j].marks[m][1] + moves[j][1] - sheet.marks[m][1]) for j, m in shared]
            moves[k] = tuple(sum(s[i] for s in shifts) / len(shifts) for i in (0, 1))
            break
        else:
            raise ValueError("a sheet of the base-board plan has no mark in common with the others")
    return moves


def up(sheets):
    """Where the back of the board is on its sheets: by the arrow beside its name."""
    for sheet in sheets:
        for first in (l for l in sheet.labels if l.text == "Base board"):
            below = [l for l in sheet.labels if abs(l.start[0] - first.start[0]) < 0.1 and -30 < l.start[1] - first.start[1] <= 0]
            arrow = arrow_beside([p for l in below for p in l.box()], pointers(sheet))
            if arrow is not None:
                v = sub(arrow[1], arrow[0])
                return (round(v[0] / length(v)), round(v[1] / length(v)))
    raise ValueError("the base-board plan has no arrow")


def feet(pack):
    """Outer line of every foot by its letter, and the middle of the inner line beside it."""
    sheets = tiles(pack)
    moves = assembled(sheets)
    ux, uy = up(sheets)
    turned = lambda p: (p[0] * uy - p[1] * ux, p[0] * ux + p[1] * uy)
    outer, inner, said = [], [], []
    for k, sheet in enumerate(sheets):
        move = lambda p, by=moves[k]: (p[0] + by[0], p[1] + by[1])
        here = [s for stroke in sheet.strokes if is_stand(stroke) for s in stroke.segments()]
        outer += [tuple(map(move, s)) for s in here]
        fine = [s for stroke in sheet.strokes if abs(stroke.width - FINE) < 0.02 and not stroke.dashes for s in stroke.segments()]
        inner += [tuple(map(move, s)) for s in fine]
        groups = letter_groups(sheet.labels)
        targets = pointed(groups, pointers(sheet))
        for index, group in enumerate(groups):
            at = belongs(group, here, targets.get(index)) if here else None
            if at is not None and len(group.letters) == 1:
                said.append((group.letters[0], tuple(map(move, here[at]))))
    whole, within = merged(outer), merged(inner)
    found = {}
    for letter, part in said:
        at = ((part[0][0] + part[1][0]) / 2, (part[0][1] + part[1][1]) / 2)
        line = min(whole, key=lambda s: distance(at, s))
        beside = [s for s in within if parallel(s, line) and 1.0 < distance(mid(s), line) < 20.0 and facing(s, line)]
        side = min(beside, key=lambda s: distance(mid(s), line))
        found[letter] = (tuple(map(turned, line)), turned(mid(side)))
    return found


def mid(s):
    return ((s[0][0] + s[1][0]) / 2, (s[0][1] + s[1][1]) / 2)


def parallel(s, line):
    u, v = sub(s[1], s[0]), sub(line[1], line[0])
    return abs(u[0] * v[1] - u[1] * v[0]) < 1e-3 * length(u) * length(v)


def facing(s, line):
    """Whether both begin and end beside each other."""
    v = sub(line[1], line[0])
    share = lambda p: (sub(p, line[0])[0] * v[0] + sub(p, line[0])[1] * v[1]) / length(v) ** 2
    return abs(share(mid(s)) - 0.5) < 0.02
