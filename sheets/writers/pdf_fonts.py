"""The fonts of a PDF: embedded as subsets, each character under a code that depends on the font alone.

So what a page's operators say of a text does not depend on what other pages of the set say: a sheet that did
not change keeps the bytes of its page when another one gets a character that was nowhere before.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any
from weakref import WeakKeyDictionary

from reportlab.pdfbase import pdfdoc
from reportlab.pdfbase.ttfonts import SUBSETN, TTFont

_font: Any = TTFont  # its published types leave out what is used here
_NOTHING, _SPACE, _HARD_SPACE = 0, 0x20, 0xA0
_OWN = range(0x20, 0x7F)  # printable ASCII stands under its own code
_FILLED = (*range(1, 0x20), *range(0x7F, 0x100))  # further codes of the first subset
# What a drawing is most likely to need stands in the first subset too, so that most sets embed only that:
# Latin-1, dashes and quotes and primes, fractions, arrows, signs of comparison (blocks of Unicode).
_LIKELY = ((0xA1, 0xFF), (0x2010, 0x2044), (0x2150, 0x215F), (0x2190, 0x2193), (0x2200, 0x2265))
_MOST_IN_A_BLOCK = 100  # entries of one bfchar block (ISO 32000-1, 9.10.3 with Adobe note 5014)


class FixedFont(_font):  # type: ignore[misc]
    """A TrueType font whose characters keep their subset and code in every document."""

    def __init__(self, name: str, path: Path, internal: str) -> None:
        """internal: what the font is called in pages, the same in every document, as `F1`."""
        super().__init__(name, str(path), asciiReadable=1)
        self._internal = internal
        self._places = _places(self.face.charToGlyph)
        self._used: WeakKeyDictionary[Any, set[int]] = WeakKeyDictionary()

    def splitString(self, text: str, doc: Any, encoding: str = "utf-8") -> list[tuple[int, bytes]]:  # noqa: N802
        """Return the text as pieces, each of one subset: (subset, codes)."""
        used = self._used_in(doc)
        pieces: list[tuple[int, bytearray]] = []
        for character in map(ord, text):
            number = _SPACE if character == _HARD_SPACE else character
            subset, code = self._places.get(number, (0, _NOTHING))
            used.add(number)
            if not pieces or pieces[-1][0] != subset:
                pieces.append((subset, bytearray()))
            pieces[-1][1].append(code)
        return [(subset, bytes(codes)) for subset, codes in pieces]

    def getSubsetInternalName(self, subset: int, doc: Any) -> str:  # noqa: N802
        """Return the name of a subset in pages."""
        self._used_in(doc)
        return f"/{self._internal}+{subset}"

    def addObjects(self, doc: Any) -> None:  # noqa: N802
        """Add the subsets that are used to a document, with the glyphs that are used."""
        subsets: dict[int, dict[int, int]] = {}
        for character in sorted(self._used.pop(doc, set())):
            if character in self._places:
                subset, code = self._places[character]
                subsets.setdefault(subset, {})[code] = character
        for subset, by_code in sorted(subsets.items()):
            self._add(doc, subset, [by_code.get(code, _NOTHING) for code in range(max(by_code) + 1)])

    def _used_in(self, doc: Any) -> set[int]:
        used = self._used.get(doc)
        if used is None:
            used = self._used[doc] = set()
            doc.fontMapping[self.fontName] = f"/{self._internal}"
            doc.delayedFonts.append(self)
        return used

    def _add(self, doc: Any, subset: int, characters: list[int]) -> None:
        base = (SUBSETN(subset) + b"+" + self.face.name + self.face.subfontNameX).decode("ascii")
        meaning = pdfdoc.PDFStream(content=_to_unicode(base, characters))
        if doc.compression:
            meaning.filters = [pdfdoc.PDFZCompress]
        font: Any = pdfdoc.PDFTrueTypeFont()
        font.Name = f"{self._internal}+{subset}"
        font.BaseFont = base
        font.FirstChar, font.LastChar = 0, len(characters) - 1
        font.Widths = pdfdoc.PDFArray([self.face.getCharWidth(c) if c else 0 for c in characters])
        font.ToUnicode = doc.Reference(meaning, f"toUnicodeCMap:{base}")
        font.FontDescriptor = self.face.addSubsetObjects(doc, base, characters)
        doc.Reference(font, font.Name)
        doc.idToObject["BasicFonts"].dict[font.Name] = font


def _places(repertoire: Iterable[int]) -> dict[int, tuple[int, int]]:
    # Of every character of the font, in an order that only the font decides: its subset and its code there.
    left = set(repertoire) - {_HARD_SPACE}
    found = {character: (0, character) for character in _OWN if character in left}
    left -= found.keys()
    likely = [c for low, high in _LIKELY for c in range(low, high + 1) if c in left]
    order = likely + sorted(c for c in left - set(likely) if c >= _SPACE)
    return found | dict(zip(order, _free(), strict=False))


def _free() -> Iterator[tuple[int, int]]:
    # The codes in order. None is that of a space, which readers set apart, or of a missing glyph.
    yield from ((0, code) for code in _FILLED)
    subset = 0
    while True:
        subset += 1
        yield from ((subset, code) for code in range(1, 0x100) if code != _SPACE)


def _to_unicode(name: str, characters: list[int]) -> str:
    # What each code says, for searching and copying (ISO 32000-1, 9.10.3).
    entries = [f"<{code:02X}> <{_utf16(c)}>" for code, c in enumerate(characters) if c]
    blocks: list[str] = []
    for k in range(0, len(entries), _MOST_IN_A_BLOCK):
        block = entries[k : k + _MOST_IN_A_BLOCK]
        blocks += [f"{len(block)} beginbfchar", *block, "endbfchar"]
    return "\n".join([
        "/CIDInit /ProcSet findresource begin", "12 dict begin", "begincmap",
        "/CIDSystemInfo", f"<< /Registry ({name})", f"/Ordering ({name})", "/Supplement 0", ">> def",
        f"/CMapName /{name} def", "/CMapType 2 def",
        "1 begincodespacerange", "<00> <FF>", "endcodespacerange", *blocks,
        "endcmap", "CMapName currentdict /CMap defineresource pop", "end", "end",
    ])  # fmt: skip


def _utf16(character: int) -> str:
    return chr(character).encode("utf-16-be").hex().upper()
