"""The tables and the stamp of a pack: which pieces there are, how thick, which joints they have."""

import re

HEADINGS = ("Pieces", "Joints", "Openings", "Ornaments, and what stands free")
HEADS = ("Piece", "Kind", "Opening", "Ornament", "No.")
FOOT = 30.0  # mm: below it stands what is on every page


def rows(sheets, headings, key):
    """Rows of tables by their heading: cells by column. A row begins where its column `key` has text; wrapped lines join."""
    found, table, columns = {h: [] for h in headings}, None, []
    for sheet in sheets:
        level = [l for l in sheet.labels if l.along[0] > 0.5 and l.start[1] > FOOT]
        for line in in_lines(level):
            texts = [l.text.strip() for l in line]
            if len(texts) == 1 and texts[0] in headings:
                table, columns = texts[0], []
            elif table and not columns:
                if texts[0] in HEADS:
                    columns = [l.start[0] for l in line]
                    if texts[0] == "Kind":
                        columns = [min(l.start[0] for l in level), *columns]
            elif table and not texts[0].startswith("must measure"):
                cells = [""] * len(columns)
                for l in line:
                    k = max((k for k, x in enumerate(columns) if l.start[0] > x - 1.0), default=0)
                    cells[k] = (cells[k] + " " + l.text.strip()).strip()
                if cells[key] or not found[table]:
                    found[table].append(cells)
                else:
                    last = found[table][-1]
                    found[table][-1] = [(a + " " + b).strip() for a, b in zip(last, cells)]
    return found


def sizes(pack):
    """Width and height of every template, by its number, from the cover."""
    found = {}
    for number, _, _, size, *_ in rows(pack.titled("^for paper "), ("Templates",), 0)["Templates"]:
        if number.isdigit():
            width, height = size.split(" × ")
            unit = '"' if height.endswith('"') else " mm"
            found[int(number)] = (millimetres(width + unit), millimetres(height))
    return found


def in_lines(labels):
    """Labels by height, each line from left to right."""
    lines = []
    for label in sorted(labels, key=lambda l: (-l.start[1], l.start[0])):
        if lines and abs(lines[-1][0].start[1] - label.start[1]) < 0.5:
            lines[-1].append(label)
        else:
            lines.append([label])
    return [sorted(line, key=lambda l: l.start[0]) for line in lines]


class Joint:
    def __init__(self, letter, kind, ends, length, angle):
        self.letter, self.kind, self.ends, self.length, self.angle = letter, kind, ends, length, angle


class Facts:
    """What the tables say: number of the template and thickness of every piece, joints by letter, the gap for icing."""

    def __init__(self, pack):
        tables = rows(pack.titled("^tables$"), HEADINGS, 1)
        self.template, self.thick = {}, {}
        for name, template, _, baked, _ in tables["Pieces"]:
            self.template[name] = int(template)
            self.thick[name] = millimetres(baked)
        self.joints = {}
        for letter, kind, ends, size, angle, *_ in tables["Joints"]:
            self.joints[letter] = Joint(letter, kind, self.two(ends), millimetres(size), float(angle.rstrip("°")))
        self.gap = self.said_gap(pack)
        self.sizes = sizes(pack)

    def two(self, text):
        names = set(self.template) | {"base board"}
        for cut in re.finditer(", ", text):
            pair = (text[: cut.start()], text[cut.end() :])
            if pair[0] in names and pair[1] in names:
                return pair
        raise ValueError(f"'{text}' does not name two pieces")

    def said_gap(self, pack):
        text = " ".join(l.text for s in pack.titled("^tables$") for l in s.labels)
        said = re.search(r"gap of (.*? mm) for icing", text)
        return millimetres(said[1]) if said else 0.0


def millimetres(text):
    """'163.4 mm', '7 13/16 in', '1 ft 2 1/2 in'."""
    text = text.strip()
    if text.endswith("mm"):
        return float(text[:-2])
    total = 0.0
    feet = re.match(r"(\d+) ft ?", text)
    if feet:
        total += 304.8 * int(feet[1])
        text = text[feet.end() :]
    text = text.removesuffix(" in").removesuffix('"').strip()
    for word in text.split():
        a, _, b = word.partition("/")
        total += 25.4 * (float(a) / float(b) if b else float(a))
    return total
