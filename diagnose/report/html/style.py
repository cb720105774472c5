"""What a diagnosis needs beyond the frame of a sheet: bars, drawings, narrow tables."""

STYLE = """
header, footer { margin: .4rem 0; }
footer { border-top: 1px solid #000; margin-top: 1.5rem; }
h3 { font-size: 1rem; margin: 1rem 0 .2rem; }
.verdict { font-size: 1.2rem; font-weight: bold; }
.side { font-weight: bold; margin: .5rem 0 0; }
.warn { border: 2px solid #000; padding: .3rem .7rem; margin: .6rem 0; }
.ranking { list-style: none; padding: 0; }
.ranking li { margin: .5rem 0; }
.ranking .row { display: flex; align-items: center; gap: .6rem; }
.ranking .bar { flex: 1; height: .8rem; }
.ranking .share { flex: 0 0 6.2rem; }
nav ul { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: .3rem 1.2rem; }
nav li { margin: 0; }
nav a { color: #000; display: inline-block; padding: .3rem 0; }
figure { margin: .6rem 0; }
figure svg { display: block; width: 100%; max-width: 30rem; height: auto; }
svg text { font-family: Arial, Helvetica, sans-serif; fill: #000;
  stroke: #fff; stroke-width: 3px; paint-order: stroke; }
caption { text-align: left; padding: .3rem 0; }
.numbers { font-size: .9rem; line-height: 1.3; }
.numbers td, .numbers th { padding: .2rem .3rem; }
.day { white-space: nowrap; }
@media print {
  nav { display: none; }
  figure svg, .warn, .ranking li { break-inside: avoid; }
  h3, .side, caption { break-after: avoid; }
  figure svg { max-width: 110mm; }
}
"""
