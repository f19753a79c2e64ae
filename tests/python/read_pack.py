"""Reads a printed pack back and compares it with the pieces it was made from.

    read_pack.py PACK.pdf PIECES.json SHAPES.json WIDTH HEIGHT BAR [TEXT ...]

PIECES.json is what `gablewright pieces --json` writes; SHAPES.json lists what is cut beside them, such as doors, panes and
ornaments: name, rings, and the piece whose coordinates they are in, if any; WIDTH and HEIGHT the size of the page in mm, BAR the length of the
bars, 100 mm or 4 in; every TEXT must be found. Prints what is wrong and ends with status 1 if anything is.
"""

import json
import re
import sys

import pdfplumber
import pypdf

from geometry import Cover, Motion, inside, length, merged, overlap, ring_segments, samples, sub
from page import Sheet

NEAR = 0.01  # mm: the promise
FLAT = 0.021  # mm: flattening of arcs in PIECES.json, and a little


class Report:
    def __init__(self):
        self.faults = []

    def expect(self, true, text):
        if not true:
            self.faults.append(text)


def check_catalogue(path, texts, report):
    reader = pypdf.PdfReader(path, strict=True)
    root = reader.trailer["/Root"]
    report.expect(root["/ViewerPreferences"]["/PrintScaling"] == "/None", "the file does not ask for print scaling None")
    report.expect(reader.pdf_header == "%PDF-1.7", f"version {reader.pdf_header}")
    report.expect(len(reader.page_labels) == len(reader.pages), "pages without labels")
    names = [str(g.get_object()["/Name"]) for g in root["/OCProperties"]["/OCGs"]]
    report.expect(names[0] == "Cut lines", f"layers {names}")
    fonts = 0
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():
            descriptor = font.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"]
            report.expect("/FontFile2" in descriptor, "a font is not embedded")
            fonts += 1
    report.expect(fonts > 0, "no fonts")
    text = "\n".join(page.extract_text() for page in reader.pages)
    for wanted in texts:
        report.expect(wanted in text, f"text not found: {wanted}")


# Length in mm and what is said of it: 100 / 25.4 is 3.937, nearly 3 15/16; 4 * 25.4 is 101.6.
BARS = {"100": (100.0, "must measure 100 mm (3 15/16 in)"), "4in": (101.6, "must measure 4 in (101.6 mm)")}


def check_texts(sheets, report):
    """No text lies on another, or on a line that is cut."""
    for number, sheet in enumerate(sheets, 1):
        if sheet.is_cover:
            continue
        boxes = [(label.text, label.box()) for label in sheet.labels]
        for k, (text, box) in enumerate(boxes):
            on = [other for other, there in boxes[:k] if overlap(box, there)]
            report.expect(not on, f"page {number}: '{text}' lies on {on}")
        lines = [s for s in sheet.cut() + sheet.far_face()]
        for text, box in boxes:
            on = [s for s in lines if overlap(box, list(s))]
            report.expect(not on, f"page {number}: '{text}' lies on a line to cut, {on[:1]}")


def check_sheets(sheets, width, height, bar, report):
    for number, sheet in enumerate(sheets, 1):
        size = sorted((sheet.width, sheet.height))
        right = abs(size[0] - width) < NEAR and abs(size[1] - height) < NEAR
        report.expect(right, f"page {number}: {sheet.width:.3f} x {sheet.height:.3f} mm")
        report.expect(BARS[bar][1] in sheet.text, f"page {number}: the bars do not say their length")
        for way, bars in sheet.bars().items():
            report.expect(bars and all(abs(b - BARS[bar][0]) < NEAR for b in bars), f"page {number}: {way} bar {bars}")
        said = f"page {number} of {len(sheets)}"
        report.expect(said in sheet.text, f"page {number}: '{said}' not found")


def assembled(tiles, report):
    """Cut and far-face lines of a tiled template, laid together by the marks; a plain page is its own only tile."""
    placed = {0: (0.0, 0.0)}
    while len(placed) < len(tiles):
        for k, tile in enumerate(tiles):
            if k in placed:
                continue
            shifts = []
            for j, there in placed.items():
                for letter in tile.marks.keys() & tiles[j].marks.keys():
                    a, b = tiles[j].marks[letter], tile.marks[letter]
                    shifts.append((a[0] + there[0] - b[0], a[1] + there[1] - b[1]))
            if shifts:
                spread = max(length(sub(s, shifts[0])) for s in shifts)
                report.expect(spread < NEAR, f"template {tile.tile[0]}: marks disagree by {spread:.4f} mm")
                placed[k] = shifts[0]
                break
        else:
            report.expect(False, f"template {tiles[0].tile[0]}: tiles that no mark joins")
            break
    lines = {"cut": [], "far": []}
    for k, (dx, dy) in placed.items():
        move = lambda s: tuple((x + dx, y + dy) for x, y in s)
        lines["cut"] += [move(s) for s in tiles[k].cut()]
        lines["far"] += [move(s) for s in tiles[k].far_face()]
    return lines


def mirrored(piece, middle):
    """Whether the piece's own coordinates show it from inside: its z axis points to the middle of its part."""
    m = piece["house_from_piece"]
    at = lambda x, y, z: [m[4 * r] * x + m[4 * r + 1] * y + m[4 * r + 2] * z + m[4 * r + 3] for r in range(3)]
    corners = [at(x, y, 0) for x, y in piece["outline"]]
    here = [sum(c[k] for c in corners) / len(corners) for k in range(3)]
    return sum((middle[k] - here[k]) * m[4 * k + 2] for k in range(3)) > 0


def middle_of(pieces):
    points = []
    for piece in pieces:
        m = piece["house_from_piece"]
        points += [[m[4 * r] * x + m[4 * r + 1] * y + m[4 * r + 3] for r in range(3)] for x, y in piece["outline"]]
    return [(min(p[k] for p in points) + max(p[k] for p in points)) / 2 for k in range(3)]


def motions(piece, lines, mirror):
    """The motions that lay a piece on the lines so that all of its cut lines are there, within the promise."""
    edges = ring_segments(piece["outline"])
    longest = max(edges, key=lambda e: length(sub(e[1], e[0])))
    size = length(sub(longest[1], longest[0]))
    inner = [s for hole in piece["holes"] for s in ring_segments(hole)]
    other = [b for a, b in zip(edges, ring_segments(piece["outline_back"])) if length(sub(a[0], b[0])) + length(sub(a[1], b[1])) > 0.02]
    cut, far = lines["covers"]
    for segment in lines["long"]:
        if abs(length(sub(segment[1], segment[0])) - size) > NEAR:
            continue
        for target in (segment, segment[::-1]):
            move = Motion(longest, target, mirror)
            if all(cut.off(move(p)) < NEAR for e in edges for p in samples(e)):
                holes = all(cut.off(move(p)) < NEAR for s in inner for p in s)
                backs = all(far.off(move(p)) < NEAR for e in other for p in samples(e))
                if holes and backs and alone(piece, lines, move):
                    yield move


def alone(piece, lines, move):
    """Whether no cut line but those of the piece lies inside it: a wall without windows is not one with some."""
    ring = [move(p) for p in piece["outline"]]
    own = Cover([tuple(move(p) for p in s) for r in [piece["outline"], *piece["holes"]] for s in ring_segments(r)])
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in lines["cut"]]
    return not any(own.off(p) > FLAT and inside(p, ring) for p in middles)


def check_layers(sheets, report):
    """What is cut is on a layer of its own, and nothing else on it; guides are on another and look otherwise."""
    guides = 0
    for number, sheet in enumerate(sheets, 1):
        odd = [s for s in sheet.on("Cut lines") if not s.is_edge()]
        report.expect(not odd, f"page {number}: {len(odd)} lines of another kind among the cut lines")
        for layer in ("Pressed and piped lines", "Bars, marks and stamp", "Names and letters"):
            like = [s for s in sheet.on(layer) if s.is_cut() and not sheet.is_cover]
            report.expect(not like, f"page {number}: {len(like)} lines under '{layer}' look like cut lines")
        guides += len(sheet.on("Pressed and piped lines"))
    return guides


def claim(name, piece, boards, mirror):
    """Claims every place where a piece lies that nothing else has claimed; how many there are."""
    found = 0
    for lines in boards:
        for move in motions(piece, lines, mirror):
            taken = Cover([s for list in lines["claimed"].values() for s in list])
            drawn = [tuple(move(p) for p in s) for ring in [piece["outline"], *piece["holes"]] for s in ring_segments(ring)]
            if any(taken.off(p) > FLAT for s in drawn for p in s):
                lines["claimed"].setdefault(name, []).extend(drawn)
                found += 1
    return found


def check_shapes(shapes, pieces, middles, boards, report):
    """Every shape beside the pieces is on a page; like ones share a template."""
    done = []
    for shape in shapes:
        outline, *holes = shape["rings"]
        piece = {"outline": outline, "outline_back": outline, "holes": holes}
        host = shape.get("piece")
        mirror = host is not None and mirrored(pieces[host], middles[pieces[host]["id"].split("/")[0]])
        if claim(shape["name"], piece, boards, mirror):
            done.append((piece, mirror))
            continue
        shared = any(True for lines in boards for _ in motions(piece, lines, mirror))
        report.expect(shared, f"{shape['name']}: its cut lines are not on the page within {NEAR} mm")


def check_repeats(by_group, middles, boards, sheets, report):
    """Congruent pieces with other lines inside have further templates, which say whose they are."""
    for group, members in sorted(by_group.items()):
        piece = members[0]
        seen = mirrored(piece, middles[piece["id"].split("/")[0]])
        if claim(("again", group), piece, boards, seen):
            said = any(f"cut with template {group}" in sheet.flow for sheet in sheets)
            report.expect(said, f"template {group} is there again and does not say 'cut with template {group}'")


def check_pieces(pieces, shapes, sheets, report):
    tiled = {}
    for sheet in sheets:
        if sheet.tile:
            tiled.setdefault(sheet.tile[0], []).append(sheet)
    for number, tiles in tiled.items():
        report.expect(len(tiles) == tiles[0].tile[2], f"template {number}: {len(tiles)} of {tiles[0].tile[2]} tiles")
    plain = [assembled([s], report) for s in sheets if not s.tile]
    boards = [(None, lines) for lines in plain] + [(n, assembled(t, report)) for n, t in tiled.items()]
    for _, lines in boards:
        # One by one as well: a shape may have two edges on one line, and a round one has short ones only.
        lines["long"] = merged(lines["cut"]) + lines["cut"]
        lines["covers"] = (Cover(lines["cut"]), Cover(lines["far"]))
        lines["claimed"] = {}
    parts = {}
    for piece in pieces:
        parts.setdefault(piece["id"].split("/")[0], []).append(piece)
    middles = {part: middle_of(members) for part, members in parts.items()}
    by_group = {}
    for piece in pieces:
        by_group.setdefault(piece["group"], []).append(piece)
    for group, members in sorted(by_group.items()):
        where = [lines for number, lines in boards if number == group] or [lines for number, lines in boards if number is None]
        ways = []
        for piece in members:
            seen = mirrored(piece, middles[piece["id"].split("/")[0]])
            straight = place(group, piece, where, seen)
            ways.append("same" if straight else "over" if place(group, piece, where, not seen) else None)
            report.expect(ways[-1], f"{piece['id']}: its cut lines are not on the page within {NEAR} mm")
        same, over = ways.count("same"), ways.count("over")
        said = f"cut {same}" if over == 0 else f"cut {same}, and {over} with the pattern turned over"
        # The block of the template: number, names, count, which face is up.
        block = re.compile(rf"(?<!\S){group} ((?! face up).)+? {said} (outside|upper) face up")
        found = any(block.search(sheet.flow) for sheet in sheets)
        report.expect(same > 0 and found, f"template {group}: '{said}' is not said")
    everywhere = [lines for _, lines in boards]
    check_repeats(by_group, middles, everywhere, sheets, report)
    check_shapes(shapes, pieces, middles, everywhere, report)
    for _, lines in boards:
        claimed = Cover([s for list in lines["claimed"].values() for s in list])
        stray = [s for s in lines["cut"] if max(claimed.off(p) for p in s) > FLAT]
        report.expect(not stray, f"{len(stray)} cut lines that belong to no piece, such as {stray[:1]}")


def place(group, piece, boards, mirror):
    """Finds the template of a piece, and claims its lines for the group: two groups do not share a template."""
    for lines in boards:
        for move in motions(piece, lines, mirror):
            rings = [piece["outline"], *piece["holes"]]
            drawn = [tuple(move(p) for p in s) for ring in rings for s in ring_segments(ring)]
            others = Cover([s for g, list in lines["claimed"].items() if g != group for s in list])
            if any(others.off(p) > FLAT for s in drawn for p in s):
                lines["claimed"].setdefault(group, []).extend(drawn)
                return True
    return False


def main():
    path, data, beside, width, height, bar, *texts = sys.argv[1:]
    report = Report()
    check_catalogue(path, texts, report)
    with pdfplumber.open(path) as document:
        sheets = [Sheet(page) for page in document.pages]
    check_sheets(sheets, float(width), float(height), bar, report)
    check_texts(sheets, report)
    with open(data, encoding="utf-8") as file:
        pieces = json.load(file)["pieces"]
    with open(beside, encoding="utf-8") as file:
        shapes = json.load(file)
    patterns = [s for s in sheets if not s.is_cover]
    guides = check_layers(sheets, report)
    check_pieces(pieces, shapes, patterns, report)
    tiles = sum(1 for s in sheets if s.tile)
    for fault in report.faults:
        print(f"FAULT {fault}")
    print(f"{len(sheets)} pages, {tiles} of them tiles, {len(pieces)} pieces, {len(shapes)} other shapes, {guides} lines inside, {len(report.faults)} faults")
    return 1 if report.faults else 0


if __name__ == "__main__":
    sys.exit(main())
