"""What other libraries find in the files: dimension texts, lines, areas."""

import io
import math

import ezdxf
import pdfplumber

# A dimension as written in the sample sets, back to mm. Independent of the program's own reader.


def length_mm(text, units):
    """The length that a dimension text says, mm: 5'-2 1/2", 3 3/16", 1588."""
    if units == "mm":
        return float(text)
    feet, inches = 0.0, text.rstrip('"')
    if "'" in text:
        head, inches = inches.split("'-")
        feet = float(head)
    total = 0.0
    for word in inches.split():
        over, _, under = word.partition("/")
        total += float(over) / float(under or 1)
    return (feet * 12 + total) * 25.4  # NIST SP 811: 1 in = 25.4 mm exactly


def pdf_texts(data):
    """Every line of lettering of a PDF, page by page, however it is turned, by pdfplumber."""
    found = []
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        for page in pdf.pages:
            line, before = "", None
            for c in page.chars:
                a, b, _, _, x, y = c["matrix"]
                size = math.hypot(a, b)
                along, across = (a * x + b * y) / size, (a * y - b * x) / size
                # Within a line every letter starts where the one before ends; 0.5 is a fifth of a space.
                starts_anew = before is None or max(abs(across - before[1]), abs(along - before[0])) > 0.5
                if starts_anew and line:
                    found.append(line)
                    line = ""
                line += c["text"]
                before = (along + c["adv"], across)
            if line:
                found.append(line)
    return found


def dxf_document(data):
    return ezdxf.read(io.StringIO(data.decode("utf-8")))


def dxf_dimensions(doc):
    """(entity, printed text) of every dimension in model space."""
    found = []
    for entity in doc.modelspace().query("DIMENSION"):
        block = doc.blocks.get(entity.dxf.geometry)
        texts = [e.plain_text() for e in block if e.dxftype() in ("TEXT", "MTEXT")]
        assert len(texts) == 1
        found.append((entity, texts[0]))
    return found
