"""PDF and SVG read as documents: whether each is one, with pages or a drawing in it."""

from __future__ import annotations

from scarfwright.outputs.readers.reading import ReadError

SVG = "{http://www.w3.org/2000/svg}svg"


def read_pdf(data: bytes) -> None:
    """Open a PDF and measure its pages. Raises ReadError."""
    import pypdfium2

    try:
        document = pypdfium2.PdfDocument(data)
        try:
            sizes = [page.get_size() for page in document]
        finally:
            document.close()
    except (pypdfium2.PdfiumError, MemoryError, ValueError) as error:
        raise ReadError(f"its reader makes no sense of it ({type(error).__name__})") from None
    if not sizes or min(min(size) for size in sizes) <= 0:
        raise ReadError("has no page")


def read_svg(data: bytes) -> None:
    """Parse an SVG: well-formed XML with a drawing for its root and something drawn in it. Raises ReadError."""
    from xml.etree.ElementTree import ParseError, fromstring

    if b"<!DOCTYPE" in data or b"<!ENTITY" in data:
        raise ReadError("declares a document type, which no drawing here does")
    try:
        root = fromstring(data)
    except (ParseError, ValueError, RecursionError, MemoryError):
        raise ReadError("is no well-formed XML") from None
    if root.tag != SVG or not len(root):
        raise ReadError("holds no drawing")
