"""Makes the copy that a wrong print setting or an uneven printer makes: shrink.py IN.pdf OUT.pdf ACROSS [ALONG].

Both are shares of true length, across and along the upright sheet; lying pages are turned. Pages keep their size.
"""

import sys

from pypdf import PdfReader, PdfWriter, Transformation

source, target, across, *along = sys.argv[1:]
across = float(across)
along = float(along[0]) if along else across
reader = PdfReader(source)
writer = PdfWriter(clone_from=reader)
writer.pdf_header = reader.pdf_header
for page in writer.pages:
    lies = page.mediabox.width > page.mediabox.height
    page.add_transformation(Transformation().scale(along if lies else across, across if lies else along))
writer.write(target)
