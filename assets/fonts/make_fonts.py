"""Makes the two font files beside this script.

    apt install fonts-dejavu-extra          # DejaVu Sans Condensed 2.37
    pip install fonttools==4.68.0
    python3 make_fonts.py /usr/share/fonts/truetype/dejavu

The files are cut down to the characters that a template can carry, so that a PDF which embeds them stays small.
The licence asks that changed fonts carry another name.
"""

import pathlib
import sys

from fontTools import subset
from fontTools.ttLib import TTFont

FAMILY = "Gablewright Sans"
FACES = {"Regular": "DejaVuSansCondensed.ttf", "Bold": "DejaVuSansCondensed-Bold.ttf"}
RANGES = [
    (0x20, 0x7E), (0xA0, 0x24F),  # Latin-1, Latin Extended-A and -B
    (0x370, 0x3FF), (0x400, 0x45F),  # Greek, Cyrillic
    (0x1E9E, 0x1E9E),
    (0x2010, 0x2015), (0x2018, 0x201F), (0x2020, 0x2022), (0x2026, 0x2026),
    (0x2030, 0x2030), (0x2032, 0x2033), (0x2039, 0x203A), (0x2044, 0x2044),
    (0x20AC, 0x20AC), (0x2116, 0x2116), (0x2122, 0x2122),
    (0x2150, 0x215E), (0x2190, 0x2195), (0x2205, 0x2205), (0x2212, 0x2212), (0x221E, 0x221E),
    (0x2248, 0x2248), (0x2260, 0x2260), (0x2264, 0x2265), (0x2300, 0x2300),
    (0x25A0, 0x25A1), (0x25B2, 0x25B2), (0x25C6, 0x25C7), (0x2610, 0x2611), (0x2702, 0x2702), (0x2713, 0x2713),
]


def rename(font, style):
    plain = FAMILY.replace(" ", "")
    names = {1: FAMILY, 2: style, 3: f"{plain}-{style} 1", 4: f"{FAMILY} {style}", 6: f"{plain}-{style}"}
    table = font["name"]
    for record in list(table.names):
        if record.nameID in names:
            table.setName(names[record.nameID], record.nameID, record.platformID, record.platEncID, record.langID)
        elif record.nameID > 14:
            table.removeNames(nameID=record.nameID)


def make(folder, style, source):
    options = subset.Options()
    options.layout_features = []
    options.hinting = False
    options.notdef_outline = True
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14]
    options.drop_tables += ["GSUB", "GPOS", "GDEF", "kern", "FFTM"]
    options.recalc_timestamp = False
    font = subset.load_font(str(folder / source), options)
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=[c for low, high in RANGES for c in range(low, high + 1)])
    cutter.subset(font)
    rename(font, style)
    target = pathlib.Path(__file__).with_name(f"GablewrightSans-{style}.ttf")
    font.save(target)
    missing = [hex(c) for low, high in RANGES for c in range(low, high + 1) if c not in TTFont(target).getBestCmap()]
    print(target.name, target.stat().st_size, "bytes; not in the source:", " ".join(missing) or "none")


for style, source in FACES.items():
    make(pathlib.Path(sys.argv[1]), style, source)
