"""What a person sees on the pages of a pack: outlines, lines on them, words, and which word belongs to which line.

Nothing but the printed pages is read: strokes by their width and dashes, texts by where they stand. Lengths in mm, y up.
"""

import itertools
import re

import pdfplumber

from geometry import distance, inside, length, merged, ring_segments, sub
from page import Sheet

LONG_DASH_DOT = (6.0, 0.75, 0.125, 0.75)  # an edge with the same letter stands here
FINE = 0.13
BESIDE = 2.5  # from letters to where their pointer begins, at most
SHAFT = 8.0  # of the arrow that says what is up
LETTER = r"(?:[A-Z]{1,3}|–)"
LETTERS = re.compile(rf"{LETTER}(?: to [A-Z]{{1,3}})?(?: / {LETTER}(?: to [A-Z]{{1,3}})?)*(?: /)?")


class Pack:
    def __init__(self, path):
        with pdfplumber.open(path) as pdf:
            self.sheets = [Sheet(page) for page in pdf.pages]

    def titled(self, pattern):
        """Pages whose heading, at the foot of the page, matches."""
        return [s for s in self.sheets if any(re.search(pattern, l.text) for l in s.labels)]


def is_stand(stroke):
    d = stroke.dashes
    return len(d) == 4 and all(abs(a - b) < 0.06 * max(b, 1) for a, b in zip(d, LONG_DASH_DOT))


def box_distance(box, segment):
    """Between a box and a line: nearest corner to line, or nearest end to box."""
    return min(min(distance(p, segment) for p in box), min(distance(q, side) for q in segment for side in ring_segments(box)))


class Lettered:
    """Letters printed for one line, one for each piece in the order named; one alone is that of all."""

    def __init__(self, labels):
        text = " ".join(l.text.strip() for l in labels)
        self.letters = expanded(text)
        self.boxes = [l.box() for l in labels]
        self.along = labels[0].along


def expanded(text):
    """'AC to AE / AI' as AC, AD, AE, AI."""
    found = []
    for part in re.split(r"\s*/\s*", text.strip().rstrip("/").strip()):
        ends = part.split(" to ")
        if len(ends) == 2:
            found += [lettered(n) for n in range(number(ends[0]), number(ends[1]) + 1)]
        else:
            found.append(part)
    return found


def number(letters):
    value = 0
    for c in letters:
        value = value * 26 + ord(c) - ord("A") + 1
    return value


def lettered(value):
    text = ""
    while value:
        value, digit = divmod(value - 1, 26)
        text = chr(ord("A") + digit) + text
    return text


def letter_groups(labels):
    """Rows of letters that belong together: a row that ends with a stroke goes on in the next one."""
    groups, open_group = [], None
    for label in labels:
        text = label.text.strip()
        if not LETTERS.fullmatch(text):
            open_group = None
            continue
        if open_group is not None:
            open_group.append(label)
        else:
            open_group = [label]
            groups.append(open_group)
        if not text.endswith("/"):
            open_group = None
    return [Lettered(group) for group in groups]


def pointers(sheet):
    """Thin lines that lead from a word to a line; arrows that say what is up have a black tip, and stand free."""
    return [tuple(s.points) for s in sheet.on("Names and letters") if s.is_thin() and len(s.points) == 2]


def pointed(groups, leads):
    """Where the pointers lead that begin at letters, by index of the letters."""
    found = {}
    for a, b in leads:
        if abs(length(sub(b, a)) - SHAFT) < 0.01 or not groups:
            continue
        near = min((min(box_distance(box, (a, a)) for box in g.boxes), k) for k, g in enumerate(groups))
        if near[0] < BESIDE:
            found[near[1]] = b
    return found


def belongs(lettered, lines, target):
    """Index of the line that letters belong to: where their pointer ends, or the nearest one that runs their way."""
    if target is not None:
        return min((distance(target, line), k) for k, line in enumerate(lines))[1]
    single = len(lettered.letters) == 1
    rated = []
    for k, line in enumerate(lines):
        v = sub(line[1], line[0])
        size = length(v)
        if size < 1e-6:
            continue
        across = abs(v[0] * lettered.along[1] - v[1] * lettered.along[0]) / size
        if not single and across > 0.02:
            continue
        rated.append((min(box_distance(box, line) for box in lettered.boxes), k))
    return min(rated)[1] if rated else None


class Template:
    """One outline with what is written on it, as it lies on the page, turned so that its arrow points up."""

    def __init__(self, ring):
        self.ring = ring
        self.number, self.turned_over, self.one_arrow = None, 0, True
        self.holes, self.stands, self.letters = [], [], {}

    def lines(self):
        return ring_segments(self.ring) + self.stands


def unturned(template, up):
    """The template with its arrow pointing to +y."""
    ux, uy = up
    turn = lambda p: (p[0] * uy - p[1] * ux, p[0] * ux + p[1] * uy)
    template.ring = [turn(p) for p in template.ring]
    template.holes = [[turn(p) for p in hole] for hole in template.holes]
    template.stands = [tuple(turn(p) for p in line) for line in template.stands]


def blocks(labels):
    """Left-aligned lines of text, one under another, that begin with the number of a template: number, all text, boxes."""
    found = []
    for label in labels:
        level = label.along[0] > 0.5
        last = found[-1][-1] if found else None
        goes_on = last is not None and level and abs(label.start[0] - last.start[0]) < 0.1 and 0 < last.start[1] - label.start[1] < 12
        if goes_on:
            found[-1].append(label)
        else:
            found.append([label])
    named = []
    for block in found:
        said = re.match(r"(\d+)\b", block[0].text)
        if said and block[0].along[0] > 0.5 and re.search(r"\b(cut|baked) ", " ".join(l.text for l in block)):
            named.append((int(said[1]), " ".join(l.text for l in block), [l.box() for l in block]))
    return named


def arrow_beside(corners, leads):
    """The arrow on the left of a block of text, from its tail."""
    left = min(p[0] for p in corners)
    height = (min(p[1] for p in corners) + max(p[1] for p in corners)) / 2
    near = []
    for a, b in leads:
        centre = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        if abs(length(sub(a, b)) - SHAFT) < 0.05 and 0 < left - centre[0] < 12 and abs(centre[1] - height) < 6:
            near.append((abs(centre[1] - height), a, b))
    return min(near)[1:] if near else None


def ring_distance(box, ring):
    if any(inside(p, ring) for p in box):
        return 0.0
    return min(box_distance(box, s) for s in ring_segments(ring))


def is_as_large(ring, size):
    """Whether an outline measures what the cover says, to a sixteenth of an inch, however it lies."""
    if size is None:
        return False
    spans = [max(p[k] for p in ring) - min(p[k] for p in ring) for k in (0, 1)]
    return all(abs(a - b) < 0.9 for a, b in zip(sorted(spans), sorted(size)))


def owned(named, found, leads, sizes):
    """Each block with the outline that it speaks of: the one round it, the one of its number, or the nearest without one."""
    pairs, beside = [], []
    for number_of, text, boxes in named:
        flat = [p for box in boxes for p in box]
        within = [t for t in found if all(inside(p, t.ring) for p in flat)]
        if within:
            within[0].number = number_of
            pairs.append((within[0], text, flat))
        else:
            arrow = arrow_beside(flat, leads)
            beside.append((number_of, text, boxes + ([list(arrow)] if arrow else []), flat))
    waiting = []
    for entry in beside:
        owner = next((t for t in found if t.number == entry[0]), None)
        if owner is not None:
            pairs.append((owner, entry[1], entry[3]))
        else:
            waiting.append(entry)
    # The nearest ones first, so that none takes the outline of another.
    near = []
    for (k, entry), (i, t) in itertools.product(enumerate(waiting), enumerate(found)):
        if is_as_large(t.ring, sizes.get(entry[0])):
            near.append((min(ring_distance(b, t.ring) for b in entry[2]), k, i))
    named = set()
    for _, k, i in sorted(near):
        if k not in named and found[i].number is None:
            named.add(k)
            found[i].number = waiting[k][0]
            pairs.append((found[i], waiting[k][1], waiting[k][3]))
    return pairs


def templates_on(sheet, sizes):
    """The templates of a page with their numbers, letters and lines."""
    strokes = [s for s in sheet.on("Cut lines") if s.is_cut() and s.closed]
    rings = [s.points for s in strokes]
    outer = [r for r in rings if not any(o is not r and inside(r[0], o) for o in rings)]
    found = [Template(r) for r in outer]
    for ring in rings:
        for t in found:
            if ring is not t.ring and inside(ring[0], t.ring):
                t.holes.append(ring)
    stands = [segment for s in sheet.strokes if is_stand(s) for segment in s.segments()]
    leads = pointers(sheet)
    ups = {}
    for owner, text, flat in owned(blocks(sheet.labels), found, leads, sizes):
        over = re.search(r"and (\d+) with the pattern turned over", text)
        owner.turned_over = int(over[1]) if over else owner.turned_over
        owner.one_arrow &= "arrow: for " not in text
        arrow = arrow_beside(flat, leads)
        if arrow is not None:
            v = sub(arrow[1], arrow[0])
            ups[id(owner)] = (round(v[0] / SHAFT), round(v[1] / SHAFT))
    for t in found:
        t.stands = [s for s in stands if on_piece(s, t.ring)]
    lines = [(t, k, line) for t in found if t.number is not None for k, line in enumerate(t.lines())]
    groups = letter_groups(sheet.labels)
    targets = pointed(groups, leads)
    for index, lettered_text in enumerate(groups):
        at = belongs(lettered_text, [line for *_, line in lines], targets.get(index))
        if at is not None:
            t, k, _ = lines[at]
            t.letters.setdefault(k, []).append(lettered_text.letters)
    for t in found:
        unturned(t, ups.get(id(t), (0, 1)))
    return [t for t in found if t.number is not None]


def on_piece(segment, ring):
    at = ((segment[0][0] + segment[1][0]) / 2, (segment[0][1] + segment[1][1]) / 2)
    return inside(at, ring) or min(distance(at, s) for s in ring_segments(ring)) < 0.5
