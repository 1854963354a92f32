"""How the job sheet looks: black on white, on a phone, on a screen and printed."""

#: CSS names of the page sizes, by units: ISO 216 A4, and ANSI/ASME Y14.1 A. From memory.
PAGES = {"metric": "A4", "imperial": "letter"}
#: What a page on its side, 210 mm high (A4) or 216 mm (Letter), leaves beneath a caption.
DRAWN_MOST_MM = 170


def style(units: str) -> str:
    """Return the style sheet; it names no other file."""
    page = PAGES[units]
    pages = (
        f"@page {{ size: {page} portrait; margin: 14mm 14mm 16mm; "
        '@bottom-right { content: "page " counter(page) " of " counter(pages); '
        "font: 9pt sans-serif; } }\n"
        f"@page drawing {{ size: {page} landscape; margin: 12mm; }}\n"
    )
    return f"{pages}{SCREEN}{PHONE}{PRINT}"


SCREEN = """\
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 56rem; color: black; background: white;
  font: 1.0625rem/1.45 "Liberation Sans", Arial, Helvetica, "DejaVu Sans", sans-serif;
  overflow-wrap: break-word; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 .5rem; }
h2 { font-size: 1.35rem; line-height: 1.25; margin: 2.2rem 0 .6rem; padding-top: .4rem;
  border-top: 3px solid black; }
h3 { font-size: 1.1rem; margin: 1.4rem 0 .4rem; }
p, ul, table, figure { margin: .5rem 0; }
ul { padding-left: 1.3rem; }
li { margin: .25rem 0; }
a { color: black; }
.state { border: 3px solid black; padding: .6rem .8rem; font-weight: bold; font-size: 1.15rem; }
.care { border: 1px solid black; border-left-width: 8px; padding: .3rem .8rem; margin: .8rem 0; }
.care p { font-weight: bold; }
.sum { font-weight: bold; font-size: 1.15rem; }
table { border-collapse: collapse; width: 100%; }
caption { text-align: left; font-weight: bold; padding: .4rem 0; }
th, td { border: 1px solid black; padding: .3rem .45rem; text-align: left; vertical-align: top;
  overflow-wrap: anywhere; }
thead th { border-bottom-width: 3px; overflow-wrap: normal; }
th:first-child, td:first-child { width: 3.4rem; text-align: center; }
.figure { text-align: right; font-variant-numeric: tabular-nums; }
tbody .figure { white-space: nowrap; }
.blank { width: 8rem; min-width: 6rem; }
td span { display: inline-block; }
input { width: 1.35rem; height: 1.35rem; margin: 0; }
svg { display: block; width: 100%; height: auto; }
figcaption { font-weight: bold; }
"""

#: Squeezed to a phone's width, a drawing could not be read: it slides sideways instead. Nor
#: could tables of many columns: each row becomes a card, its cells one below another.
PHONE = """\
@media screen and (max-width: 48rem) {
  body { padding: .7rem; }
  th, td { padding: .25rem .3rem; font-size: .95rem; }
  th:first-child, td:first-child { width: 2.8rem; }
  .wide thead { display: none; }
  .wide, .wide caption, .wide tbody, .wide tr { display: block; }
  .wide tr { border: 1px solid black; margin: .4rem 0; padding: .2rem .4rem; }
  .wide tr > * { display: inline-block; border: 0; width: auto; text-align: left; padding: .15rem; }
  .wide tr > *:nth-child(n + 3) { display: block; }
  .wide td:empty:nth-child(n) { display: none; }
  .wide td[data-label]::before { content: attr(data-label) ": "; }
  .drawn { overflow-x: auto; }
  svg { width: 60rem; max-width: none; }
}
"""

PRINT = f"""\
@media print {{
  body {{ padding: 0; max-width: none; font-size: 11pt; line-height: 1.35; }}
  h1 {{ font-size: 19pt; }}
  h2 {{ font-size: 15pt; margin-top: 8mm; }}
  h3 {{ font-size: 12pt; }}
  nav {{ display: none; }}
  h1, h2, h3, caption {{ break-after: avoid; }}
  thead, thead tr, tbody tr:first-child {{ break-after: avoid; }}
  tbody tr:first-child, tbody tr:last-child {{ break-before: avoid; }}
  tr, li, p, .care, .state, .task, figure {{ break-inside: avoid; }}
  p {{ orphans: 3; widows: 3; }}
  thead {{ display: table-header-group; }}
  input {{ width: 5mm; height: 5mm; }}
  .wide th, .wide td {{ font-size: 9.5pt; padding: .25rem .3rem; }}
  figure {{ page: drawing; margin: 0; }}
  svg {{ max-height: {DRAWN_MOST_MM}mm; }}
}}
"""
