/**
 * The page's look: quiet paper, one typeface of the reader's own machine, colours for meaning only. The colours
 * that mark kinds are those of Okabe and Ito (Color Universal Design, 2008), which people with every common form of
 * colour blindness can tell apart; each is also named by a letter, a shape or a word.
 */
export const STYLESHEET: string = `
:root{color-scheme:light dark;
--paper:#fbfbf8;--panel:#ffffff;--ink:#1c2328;--soft:#566069;--line:#d5d9d6;--strong-line:#8b949b;--link:#005a8f;
--stock:#f1f0ea;--plate:#dfe6ea;--edge:#1c2328;--halo:#ffffff;
--black:#1c2328;--orange:#e69f00;--sky:#56b4e9;--green:#009e73;--yellow:#f0e442;--blue:#0072b2;--vermillion:#d55e00;--purple:#cc79a7;--grey:#8b949b;
--bad:#b04a00;--bad-back:#fdf0e6;--look:#7a5600;--look-back:#fdf6e3;--good:#006b4e;--good-back:#e9f6f1}
@media (prefers-color-scheme:dark){:root{
--paper:#14181b;--panel:#1b2024;--ink:#e7eaec;--soft:#a3adb5;--line:#343c42;--strong-line:#6d7780;--link:#7cc5f0;
--stock:#20272b;--plate:#36424a;--edge:#dfe4e7;--halo:#1b2024;
--black:#e7eaec;--blue:#3f9bd8;--grey:#7d8790;
--bad:#ff9d5c;--bad-back:#33211a;--look:#f0c04a;--look-back:#2e2818;--good:#4fd0a8;--good-back:#172b25}}
*{box-sizing:border-box}
html{scroll-behavior:smooth;-webkit-text-size-adjust:100%}
body{margin:0 auto;max-width:1120px;padding:0 20px 40px;background:var(--paper);color:var(--ink);font:15px/1.5 system-ui,"Segoe UI",Roboto,"DejaVu Sans",sans-serif}
h1,h2,h3,p,figure,dl,dd,ul{margin:0;padding:0}
h1{font-size:40px;line-height:1.1;letter-spacing:-0.01em}
h2{font-size:22px;line-height:1.25;margin:0 0 14px}
h3{font-size:17px;line-height:1.3}
a{color:var(--link)}
a:focus-visible{outline:3px solid var(--orange);outline-offset:2px}
small{color:var(--soft);font-size:13px}
code{font:0.92em ui-monospace,"DejaVu Sans Mono",monospace;overflow-wrap:break-word}
.skip{position:absolute;left:-999px}.skip:focus{left:8px;top:8px;background:var(--panel);padding:6px 10px}
.page-head{padding:34px 0 18px}
.kind{color:var(--soft);font-size:14px}
.origin{color:var(--soft);margin-top:6px;overflow-wrap:anywhere}
h1,h3,.origin{overflow-wrap:anywhere}
.verdict{display:flex;gap:12px;align-items:flex-start;margin-top:20px;padding:12px 16px;border-left:6px solid;font-size:17px}
.verdict .sign{font-weight:700;line-height:1.5}
.verdict.bad{background:var(--bad-back);border-color:var(--vermillion)}.verdict.bad .sign,.verdict.bad strong{color:var(--bad)}
.verdict.look{background:var(--look-back);border-color:var(--orange)}.verdict.look .sign,.verdict.look strong{color:var(--look)}
.verdict.good{background:var(--good-back);border-color:var(--green)}.verdict.good .sign,.verdict.good strong{color:var(--good)}
.notice{margin-top:10px;padding:12px 16px;border:2px solid var(--ink);font-size:15px}
.key-figures{display:grid;grid-template-columns:repeat(auto-fit,minmax(150px,1fr));gap:1px;margin-top:18px;background:var(--panel);border:1px solid var(--line);overflow:hidden}
.key-figures>div{box-shadow:0 0 0 1px var(--line);padding:12px 14px}
.key-figures dt{color:var(--soft);font-size:13px}
.key-figures dd{font-size:25px;line-height:1.25;font-variant-numeric:tabular-nums}
.key-figures small{display:block;line-height:1.35}
nav{position:sticky;top:0;z-index:2;background:var(--paper);border-top:1px solid var(--line);border-bottom:1px solid var(--line);margin:0 -20px;padding:0 20px}
nav ul{display:flex;gap:20px;list-style:none;overflow-x:auto}
nav a{display:block;padding:10px 0;text-decoration:none;white-space:nowrap;color:var(--ink)}
nav a:hover{text-decoration:underline}
section{padding-top:34px;scroll-margin-top:24px}
article{scroll-margin-top:52px}
section>p{max-width:75ch;margin-bottom:14px}
.table-frame{overflow-x:auto;margin-top:14px}
table{border-collapse:collapse;width:100%;font-size:14px;line-height:1.4;font-variant-numeric:tabular-nums}
caption{text-align:left;color:var(--soft);font-size:13px;padding-bottom:4px}
th,td{text-align:left;vertical-align:top;padding:6px 14px 6px 0;border-bottom:1px solid var(--line)}
.plain{width:auto;min-width:min(100%,520px)}.plate-card .plain{width:100%}
.wide{width:50%}#findings .wide,#notes .wide{width:32%}#findings .figure small,#notes .figure small{white-space:nowrap}
thead th{font-weight:600;border-bottom:1.5px solid var(--strong-line);white-space:nowrap}
tbody th{font-weight:400}
tfoot th,tfoot td{font-weight:700;border-bottom:0;border-top:1.5px solid var(--strong-line)}
.figure{text-align:right}
td.figure,th.figure[scope=row]{white-space:nowrap}
td small{display:block}.extent{white-space:nowrap}
.uses{list-style:none}
.uses small{display:inline}
.severity{font-weight:600;white-space:nowrap}.severity.error{color:var(--bad)}.severity.warning{color:var(--look)}.severity.note{color:var(--soft)}
.sheet-card{margin-top:20px;padding:18px;background:var(--panel);border:1px solid var(--line)}
.plate-cards{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,460px),1fr));gap:18px;align-items:start}
.plate-card{padding:16px;background:var(--panel);border:1px solid var(--line);min-width:0}
article>header{display:flex;flex-wrap:wrap;justify-content:space-between;align-items:baseline;gap:4px 16px;margin-bottom:8px}
.times{white-space:nowrap}
.times strong{font-size:17px}
.badge{display:inline-block;min-width:1.7em;text-align:center;background:var(--ink);color:var(--panel);font-size:14px;padding:1px 5px;font-variant-numeric:tabular-nums}
figcaption{color:var(--soft);font-size:13px;margin:4px 0}
.facts{display:flex;flex-wrap:wrap;gap:8px 26px;margin-top:10px}
.facts dt{color:var(--soft);font-size:13px}
.facts dd{font-variant-numeric:tabular-nums;overflow-wrap:anywhere}
.legend{display:flex;flex-wrap:wrap;gap:4px 18px;list-style:none;margin:0 0 14px;font-size:13px}
.swatch{display:inline-block;width:1em;height:1em;margin-right:6px;vertical-align:-0.14em;border:1.5px solid var(--edge);background:var(--panel)}
.picture{display:block;height:auto;max-width:100%;overflow:visible;font-family:inherit}
.picture text{fill:var(--ink);font-variant-numeric:tabular-nums}
.picture path,.picture use{vector-effect:non-scaling-stroke}
.dimension{fill:none;stroke:var(--soft);stroke-width:0.8}
.arrow,.bar-full{fill:var(--soft);stroke:var(--soft);stroke-width:0.8}
.bar-empty{fill:var(--panel);stroke:var(--soft);stroke-width:0.8}
.picture .size{fill:var(--soft)}
.picture:not(.sheet){width:100%}
.sheet text{font-size:14px}
.sheet .stock{fill:var(--stock);stroke:var(--strong-line);stroke-width:1.2}
.sheet .margin{fill:none;stroke:var(--strong-line);stroke-width:0.8;stroke-dasharray:5 4}
.sheet .keep-out{fill:var(--grey);fill-opacity:0.35;stroke:var(--strong-line);stroke-dasharray:2 2}
.sheet .plate{stroke:var(--edge);stroke-width:1;fill:var(--plate)}
.sheet .number{font-weight:700;paint-order:stroke;stroke:var(--plate);stroke-width:3.5px;pointer-events:none}
.sheet .number.large{font-size:20px}.sheet .number.medium{font-size:15px}.sheet .number.small{font-size:11px}
.sheet .name{font-size:13px;pointer-events:none}
.plate-picture text{font-size:20px}
.plate-picture .plate{fill:var(--plate);fill-rule:evenodd;stroke:var(--edge);stroke-width:1.3}
.plate-picture .opening{stroke-width:1.6;fill-opacity:0.28}
.plate-picture .mark{fill:none;stroke:var(--soft);stroke-width:0.8}
.plate-picture .mark-text{fill:var(--soft);font-size:revert-layer}
.plate-picture .letter{font-weight:700;font-size:19px;paint-order:stroke;stroke:var(--halo);stroke-width:4px}
.is-outline{background:var(--plate)}
.is-screw-hole{fill:var(--blue);stroke:var(--blue);background:var(--blue)}
.is-rod-hole{fill:var(--vermillion);stroke:var(--vermillion);background:var(--vermillion)}
.is-tab-slot{fill:var(--green);stroke:var(--green);background:var(--green)}
.is-tie-slot{fill:var(--purple);stroke:var(--purple);background:var(--purple)}
.is-window{fill:var(--sky);stroke:var(--sky);background:var(--sky)}
.is-relief{fill:var(--yellow);stroke:var(--grey);background:var(--yellow)}
.is-hole{fill:var(--orange);stroke:var(--orange);background:var(--orange)}
.is-slot{fill:var(--grey);stroke:var(--grey);background:var(--grey)}
.views{display:grid;gap:0}
.view-top{grid-column:1;grid-row:1}.view-side{grid-column:1;grid-row:2}.view-front{grid-column:2;grid-row:2}.view-whole{grid-column:2;grid-row:1;align-self:end}
.view text{font-size:14px}
.view .view-name{font-weight:700;font-size:15px}
.part path{stroke-width:1;fill-rule:evenodd}
.part-plate path{fill:var(--plate);fill-opacity:0.6;stroke:var(--edge)}.part-plate .wall{fill:var(--soft);fill-opacity:1;fill-rule:nonzero;stroke:none}
.part-pipe path{fill:var(--sky);fill-opacity:0.22;stroke:var(--blue)}
.part-rod path{fill:var(--vermillion);fill-opacity:0.85;stroke:var(--bad);stroke-width:0.6}
.part .axis-line{fill:none;stroke:var(--soft);stroke-width:0.7;stroke-dasharray:9 3 2 3}
.view .part-label{paint-order:stroke;stroke:var(--halo);stroke-width:3.5px}
.swatch.part-plate{background:var(--plate)}.swatch.part-pipe{background:var(--sky)}.swatch.part-rod{background:var(--vermillion)}
.charts{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,420px),1fr));gap:24px}
.picture.chart{max-width:560px}
.chart text{font-size:16px}
.chart .grid{fill:none;stroke:var(--line)}.chart .sheet-mark{fill:none;stroke:var(--vermillion);stroke-width:2}.chart .cost-line{fill:none;stroke:var(--blue);stroke-width:2.2}
.chart .base{fill:none;stroke:var(--strong-line)}
.cost-sheet{fill:var(--blue);background:var(--blue)}.cost-cutting{fill:var(--orange);background:var(--orange)}.cost-handling{fill:var(--sky);background:var(--sky)}.cost-setup{fill:var(--yellow);background:var(--yellow)}.cost-minimum{fill:var(--black);background:var(--black)}.cost-hardware{fill:var(--green);background:var(--green)}.cost-length{fill:var(--purple);background:var(--purple)}.cost-packing{fill:var(--vermillion);background:var(--vermillion)}.cost-freight{fill:var(--strong-line);background:var(--strong-line)}.cost-tax{fill:var(--line);background:var(--line)}
.chart rect{stroke:var(--panel);stroke-width:1}
.cautions ul{list-style:none;display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,320px),1fr));gap:16px 28px}
.cautions li{border-left:4px solid var(--orange);padding-left:12px}
.cautions small{display:inline}
.files{columns:22em auto;list-style:none}.files li{break-inside:avoid;overflow-wrap:anywhere;padding:2px 0}
footer{margin-top:40px;padding-top:14px;border-top:1px solid var(--line);color:var(--soft);font-size:13px}
@media (max-width:640px){
body{padding:0 14px 30px}nav{margin:0 -14px;padding:0 14px}
h1{font-size:32px}.page-head{padding-top:22px}
.key-figures{grid-template-columns:1fr 1fr}.key-figures dd{font-size:21px}
.sheet-card,.plate-card{padding:12px;margin-left:-6px;margin-right:-6px}
.sheet{width:100%}.sheet text{font-size:30px}.sheet .number.large{font-size:34px}.sheet .number.medium{font-size:22px}.sheet .number.small{font-size:15px}.sheet .name{display:none}
.narrow text{font-size:18px}.sheet.narrow .number.large{font-size:20px}.sheet.narrow .number.medium{font-size:15px}.sheet.narrow .number.small{font-size:11px}
.plate-picture text,.plate-picture .letter{font-size:26px}
.views{display:block}.view text,.view .view-name{font-size:20px}
thead th{white-space:normal}
.stacks thead{position:absolute;left:-999em}
.stacks,.stacks tbody,.stacks tfoot,.stacks tr,.stacks th,.stacks td{display:block;width:auto}
.stacks tr{border-bottom:1px solid var(--strong-line);padding:8px 0}
.stacks th,.stacks td{border:0;padding:1px 0;text-align:left;white-space:normal}
.stacks td{display:grid;grid-template-columns:6.4em 1fr;gap:8px}
.stacks td:empty{display:none}.stacks caption{display:block}.stacks caption{padding-bottom:0}
.stacks td::before{content:attr(data-heading);color:var(--soft);font-size:13px}
.stacks tbody th{font-weight:600}
}
@media print{
:root{--paper:#fff;--panel:#fff;--ink:#000;--soft:#444;--line:#bbb;--strong-line:#666;--link:#000;--stock:#f4f4f0;--plate:#e2e7ea;--edge:#000;--halo:#fff;--black:#000;--blue:#0072b2;--grey:#8b949b;--bad:#a04400;--bad-back:#fff;--look:#6a4a00;--look-back:#fff;--good:#005a41;--good-back:#fff}
@page{size:A4;margin:14mm}
body{max-width:none;padding:0;font-size:10pt}
nav,.skip{display:none}
h2,.legend,caption{break-after:avoid}article,figure,.cautions li,tr,.verdict,.notice,.key-figures{break-inside:avoid}
thead{display:table-header-group;break-after:avoid}tfoot{display:table-row-group}tbody tr:first-child{break-before:avoid}
th,td{padding-top:3px;padding-bottom:3px}
a{text-decoration:none}
.verdict,.notice,.swatch,.picture,.badge{-webkit-print-color-adjust:exact;print-color-adjust:exact}
.sheet text{font-size:17px}.sheet .number.large{font-size:24px}.sheet .number.medium{font-size:18px}.sheet .name{font-size:15px}
.sheet-card .picture{max-height:150mm}
.plate-cards{display:block}.plate-card{margin-top:12px;display:grid;grid-template-columns:68mm 1fr;column-gap:5mm}
.plate-card>header{grid-column:1/3}.plate-card>figure{grid-row:2/4}
table,.facts dd{font-size:8.5pt}small,caption,.facts dt,figcaption{font-size:8pt}.key-figures{grid-template-columns:repeat(auto-fit,minmax(32mm,1fr))}.key-figures dd{font-size:15pt}
}
`;
