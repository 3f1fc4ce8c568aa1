"""What a file says about itself: its title, what it conforms to, and what its colours mean.

It is PDF/UA-1 (ISO 14289-1), for readers who cannot see, and PDF/A-2a (ISO 19005-2), which is kept
for years: colours have a meaning of their own, all that is needed is inside.
"""

from functools import cache
from pathlib import Path

import pikepdf
from pikepdf import Array, Dictionary, Name, String

from bindoff.records import Record
from bindoff.render.pdf.streams import stream


class Metadata(Record):
    """What the file says about itself. ``date`` is an ISO 8601 day or empty."""

    title: str
    author: str
    language: str
    subject: str
    keywords: tuple[str, ...]
    date: str
    creator: str
    version: str = ""
    rights: str = ""


def write_metadata(pdf: pikepdf.Pdf, about: Metadata) -> None:
    """Write title, language, dates, identification and output intent into ``pdf``."""
    root = pdf.Root
    root.Lang = String(about.language)
    root.ViewerPreferences = Dictionary(DisplayDocTitle=True)
    root.Metadata = pikepdf.Stream(
        pdf, _xmp(about).encode(), Dictionary(Type=Name.Metadata, Subtype=Name.XML)
    )
    root.OutputIntents = Array([_output_intent(pdf)])
    info = Dictionary(
        Title=String(about.title),
        Author=String(about.author),
        Subject=String(about.subject),
        Keywords=String(", ".join(about.keywords)),
        Creator=String(about.creator),
        Producer=String(about.creator),
    )
    if about.date:
        moment = String(f"D:{about.date.replace('-', '')}000000Z")
        info.CreationDate = moment
        info.ModDate = moment
    pdf.trailer.Info = pdf.make_indirect(info)


@cache
def _srgb() -> bytes:
    """The profile of sRGB (IEC 61966-2-1), as Little CMS makes it, without its day."""
    return Path(__file__).with_name("srgb.icc").read_bytes()


def _output_intent(pdf: pikepdf.Pdf) -> Dictionary:
    """Colours are those of sRGB (ISO 19005-2, clauses 6.2.3 and 6.2.4.3)."""
    profile = stream(pdf, _srgb(), N=3)
    return Dictionary(
        Type=Name.OutputIntent,
        S=Name.GTS_PDFA1,
        OutputConditionIdentifier=String("sRGB"),
        Info=String("sRGB, IEC 61966-2-1"),
        DestOutputProfile=pdf.make_indirect(profile),
    )


_OWN_SCHEMA = """<rdf:Description xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"\
 xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#"\
 xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#" rdf:about="">
<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
<pdfaSchema:schema>PDF/UA identification</pdfaSchema:schema>
<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
<pdfaProperty:name>part</pdfaProperty:name>
<pdfaProperty:valueType>Integer</pdfaProperty:valueType>
<pdfaProperty:category>internal</pdfaProperty:category>
<pdfaProperty:description>The part of ISO 14289 the file conforms to</pdfaProperty:description>
</rdf:li></rdf:Seq></pdfaSchema:property>
</rdf:li></rdf:Bag></pdfaExtension:schemas>
</rdf:Description>"""
"""What ``pdfuaid`` is, which PDF/A asks of names it does not know (ISO 19005-2, clause 6.6.2.3)."""


_MARKS = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;"})


def _text(words: str) -> str:
    """Words as they stand between tags (XML 1.0, 2.4)."""
    return words.translate(_MARKS)


def _xmp(about: Metadata) -> str:
    """The XMP packet, with the identifiers of PDF/UA-1 (ISO 14289-1, clause 5) and PDF/A-2a
    (ISO 19005-2, clause 6.6.4). It stands in the file as it is, so that no reader of XML need be
    loaded."""
    dates = "".join(
        f"\n<xmp:{name}>{about.date}T00:00:00Z</xmp:{name}>"
        for name in ("CreateDate", "ModifyDate")
        if about.date
    )
    rights = (
        f'\n<dc:rights><rdf:Alt><rdf:li xml:lang="x-default">{_text(about.rights)}</rdf:li>'
        "</rdf:Alt></dc:rights>\n<xmpRights:Marked>True</xmpRights:Marked>"
        if about.rights
        else ""
    )
    version = (
        f"\n<xmpMM:VersionID>{_text(about.version)}</xmpMM:VersionID>" if about.version else ""
    )
    words = "".join(f"<rdf:li>{_text(word)}</rdf:li>" for word in about.keywords)
    subject = f"<dc:subject><rdf:Bag>{words}</rdf:Bag></dc:subject>" if words else ""
    language = _text(about.language)
    return f"""<?xpacket begin="\N{ZERO WIDTH NO-BREAK SPACE}" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description xmlns:dc="http://purl.org/dc/elements/1.1/"\
 xmlns:xmpMM="http://ns.adobe.com/xap/1.0/mm/"\
 xmlns:xmpRights="http://ns.adobe.com/xap/1.0/rights/"\
 xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/"\
 xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"\
 xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/" rdf:about="">
<dc:format>application/pdf</dc:format>
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{_text(about.title)}</rdf:li></rdf:Alt></dc:title>
<dc:creator><rdf:Seq><rdf:li>{_text(about.author)}</rdf:li></rdf:Seq></dc:creator>
<dc:description><rdf:Alt><rdf:li xml:lang="x-default">{_text(about.subject)}</rdf:li></rdf:Alt>\
</dc:description>
<dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language>
{subject}
<pdf:Keywords>{_text(", ".join(about.keywords))}</pdf:Keywords>
<pdf:Producer>{_text(about.creator)}</pdf:Producer>
<xmp:CreatorTool>{_text(about.creator)}</xmp:CreatorTool>{dates}{rights}{version}
<pdfuaid:part>1</pdfuaid:part>
<pdfaid:part>2</pdfaid:part>
<pdfaid:conformance>A</pdfaid:conformance>
</rdf:Description>
{_OWN_SCHEMA}
</rdf:RDF>
</x:xmpmeta>

<?xpacket end="w"?>
"""
