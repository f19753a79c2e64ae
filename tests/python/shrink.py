"""Makes the copy that a wrong print setting makes: shrink.py IN.pdf OUT.pdf SCALE. Pages keep their size."""

import sys

from pypdf import PdfReader, PdfWriter, Transformation

source, target, scale = sys.argv[1:]
writer = PdfWriter(clone_from=PdfReader(source))
for page in writer.pages:
    page.add_transformation(Transformation().scale(float(scale)))
writer.write(target)
