"""What is drawn on a page, as an independent reader finds it: strokes, words, marks. In mm, y up."""

import re

from pdfminer.pdftypes import resolve1
from pdfplumber.page import PDFPageAggregatorWithMarkedContent

from geometry import bezier, length, ring_segments, sub

MM = 25.4 / 72
WIDE, NARROW = 0.5, 0.25  # line widths of ISO 128-2, group 0.5
LOOSE = 0.05  # share by which lines are made wider where a pack makes up for a printer
FAR_FACE = (12 * NARROW, 3 * NARROW)  # dash and gap of ISO 128-2 line 02.1 (from memory of the standard)
MARK = 2.5  # from the middle of a mark to its tips


def begin_tag(self, tag, props=None):
    """Of optional content the reader keeps the name of its layer among the resources of the page."""
    self.cur_mcid = None
    self.cur_tag = getattr(props, "name", None) if tag.name == "OC" else None


PDFPageAggregatorWithMarkedContent.begin_tag = begin_tag


def layer_names(page):
    """Names of layers, by what the page calls them."""
    found = {}
    for key, layer in (resolve1(page.page_obj.resources.get("Properties")) or {}).items():
        name = resolve1(layer)["Name"]
        found[key] = name.decode("utf-16") if name.startswith((b"\xfe\xff", b"\xff\xfe")) else name.decode("latin-1")
    return found


class Stroke:
    def __init__(self, item, height, layers):
        self.layer = layers.get(item.get("tag"))
        self.width = (item["linewidth"] or 0) * MM
        pattern = item.get("dash") or ([], 0)
        self.dashes = [d * MM for d in pattern[0]]
        self.points, self.closed = [], False
        at = lambda p: (p[0] * MM, height - p[1] * MM)
        for command, *points in item["path"]:
            points = [at(p) for p in points]
            if command == "c":
                self.points += bezier(self.points[-1], *points)
            elif command == "h":
                self.closed = True
            else:
                self.points += points

    def segments(self):
        ring = ring_segments(self.points)
        return ring if self.closed else ring[:-1]

    def is_cut(self):
        return abs(self.width - WIDE) < LOOSE * WIDE and not self.dashes

    def is_far_face(self):
        alike = len(self.dashes) == 2 and all(abs(a - b) < LOOSE * b for a, b in zip(self.dashes, FAR_FACE))
        return abs(self.width - NARROW) < LOOSE * NARROW and alike

    def is_edge(self):
        return self.is_cut() or self.is_far_face()

    def is_thin(self):
        return abs(self.width - NARROW) < LOOSE * NARROW and not self.dashes


class Sheet:
    def __init__(self, page):
        self.width, self.height = float(page.width) * MM, float(page.height) * MM
        items = page.lines + page.curves + page.rects
        layers = layer_names(page)
        self.strokes = [Stroke(i, self.height, layers) for i in items if i.get("stroke")]
        # Level text alone: the reader mixes turned letters into the lines beside them.
        level = page.filter(lambda o: o["object_type"] != "char" or abs(o["matrix"][1]) < 1e-6)
        self.text = level.extract_text() or ""
        self.flow = in_order(level.chars)
        self.labels = labels(page.chars, self.height)
        words = page.extract_words(keep_blank_chars=False)
        self.words = [(w["text"], ((w["x0"] + w["x1"]) / 2 * MM, self.height - (w["top"] + w["bottom"]) / 2 * MM)) for w in words]
        said = re.search(r"template (\d+), tile (\d+) of (\d+)", self.text)
        self.tile = tuple(map(int, said.groups())) if said else None
        # Covers have pictures and tables, and say what paper they are for.
        self.is_cover = re.search(r"for paper ", self.text) is not None
        self.marks = self.find_marks()

    def on(self, layer):
        return [stroke for stroke in self.strokes if stroke.layer == layer]

    def cut(self):
        return [s for stroke in self.on("Cut lines") if stroke.is_cut() for s in stroke.segments()]

    def far_face(self):
        return [s for stroke in self.on("Cut lines") if stroke.is_far_face() for s in stroke.segments()]

    def bars(self):
        """Lengths of the level and of the upright bar."""
        found = {"level": [], "upright": []}
        for stroke in self.strokes:
            if stroke.is_thin() and len(stroke.points) == 2 and not stroke.closed:
                dx, dy = sub(stroke.points[1], stroke.points[0])
                for way, along, aside in (("level", dx, dy), ("upright", dy, dx)):
                    if abs(aside) < 1e-4 and 90 < abs(along) < 110:
                        found[way].append(abs(along))
        return found

    def find_marks(self):
        """Middle of every diamond, by the letter beside it."""
        marks = {}
        for stroke in self.strokes:
            if not (stroke.is_thin() and stroke.closed and len(stroke.points) == 4):
                continue
            middle = tuple(sum(p[k] for p in stroke.points) / 4 for k in (0, 1))
            if any(abs(length(sub(p, middle)) - MARK) > 0.1 for p in stroke.points):
                continue
            letters = [(length(sub(at, middle)), text) for text, at in self.words if re.fullmatch("[a-z]{1,3}", text)]
            if letters:
                marks[min(letters)[1]] = middle
        return marks


CAPITALS = 0.729  # height of capitals over the size of the type, of the font that is embedded
CREASE = 0.15  # mm by which boxes of texts may overlap: they are a little larger than their ink


class Label:
    """A run of text with the box round it, upright or turned."""

    def __init__(self, char, start, across):
        self.text, self.start, self.along = char["text"], start, char["matrix"][:2]
        self.across = across  # height of capitals, mm
        self.reach = char["adv"] * MM

    def takes(self, char, origin):
        """Whether a character goes on where this run ends."""
        v = sub(origin, self.start)
        dx, dy = self.along
        ahead, aside = v[0] * dx + v[1] * dy, v[1] * dx - v[0] * dy
        alike = all(abs(a - b) < 1e-4 for a, b in zip(char["matrix"][:2], self.along))
        if not alike or abs(aside) > 0.1 or abs(ahead - self.reach) > 0.5:
            return False
        self.text += char["text"]
        self.reach = ahead + char["adv"] * MM
        return True

    def box(self, crease=CREASE):
        (dx, dy), (x, y) = self.along, self.start
        at = lambda u, v: (x + dx * u - dy * v, y + dy * u + dx * v)
        far, top = self.reach - crease, self.across - crease
        return [at(crease, crease), at(far, crease), at(far, top), at(crease, top)]


def labels(chars, height):
    """All texts of a page, in the order in which they are drawn."""
    found = []
    for char in chars:
        a, b = char["matrix"][:2]
        # The box of a turned character is (adv |a| + size |b|) wide and (adv |b| + size |a|) high.
        size = (char["height"] - char["adv"] * abs(b)) / abs(a) if abs(a) > 0.5 else (char["width"] - char["adv"] * abs(a)) / abs(b)
        origin = (char["matrix"][4] * MM, char["matrix"][5] * MM)
        if not (found and found[-1].takes(char, origin)):
            found.append(Label(char, origin, size * CAPITALS * MM))
    return [label for label in found if label.text.strip()]


def in_order(chars):
    """The text in the order in which it was drawn: the lines of one block follow each other, whatever stands beside it."""
    text, last = "", None
    for char in chars:
        goes_on = last and abs(char["top"] - last["top"]) < 0.1 and abs(char["x0"] - last["x1"]) < 0.2 * char["size"]
        text += ("" if goes_on else " ") + char["text"]
        last = char
    return " ".join(text.split())
