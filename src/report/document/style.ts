/**
 * How reports look: paper and ink, in the light and in the dark, on a phone and on A4. Colours of sail plans are the same everywhere; all
 * others are the variables here. Texts have at least 4.5 times the contrast of their ground.
 */
export const STYLE = `
:root{color-scheme:light dark;--paper:#fdfcf9;--ink:#1c242b;--soft:#4f5b65;--line:#cdd3d6;--sea:#eaf1f4;--land:#d8d0bd;--night:#dde2ea;--mark:#0b5874;--strong:#a33d0f;--pale:#b9cfd8;--warn:#fbecc8;--warn-ink:#4a3300;--panel:#f3f1eb;--window:#cfe3d6}
@media (prefers-color-scheme:dark){:root{--paper:#151a1e;--ink:#e9edf0;--soft:#aab5bd;--line:#3b454d;--sea:#1b262d;--land:#4a463b;--night:#262d3a;--mark:#6cc3e4;--strong:#f0a175;--pale:#35525f;--warn:#4a3a12;--warn-ink:#fbecc8;--panel:#1e252a;--window:#274236}}
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.5 system-ui,sans-serif;overflow-wrap:anywhere}
main{max-width:1120px;margin:0 auto;padding:16px 28px 48px}
.caution{margin:0;padding:10px 28px;background:var(--warn);color:var(--warn-ink);font-weight:600;text-align:center}
.status{margin:8px 0;padding:8px 12px;border:2px solid var(--strong);font-weight:500}
h1{font-size:1.6rem;line-height:1.25;margin:20px 0 8px}
h2{font-size:1.25rem;margin:36px 0 8px;padding-top:10px;border-top:3px solid var(--ink)}
h3{font-size:1.05rem;margin:22px 0 6px}
.warned{margin:14px 0;padding:10px 14px 10px 32px;border:2px solid var(--strong)}
h1,h2,h3,main p,.answer,.warned,nav{max-width:860px}
.answer{list-style:none;margin:14px 0;padding:0;font-size:1.08rem}
.answer li{padding:8px 0 8px 14px;border-left:5px solid var(--mark);margin-bottom:8px}
a{color:var(--mark)}
nav ul{list-style:none;margin:12px 0;padding:0;display:flex;flex-wrap:wrap;gap:4px 18px}
figure{margin:12px 0}
figcaption{color:var(--soft);font-size:.92rem}
figcaption p{margin:6px 0}
.chart{display:block;width:100%;max-width:860px;height:auto;font-family:system-ui,sans-serif;fill:var(--ink);overflow:visible}
.chart.narrow{display:none;max-width:460px;margin:0 auto}
.keys{list-style:none;margin:8px 0;padding:0;display:flex;flex-wrap:wrap;gap:4px 16px;font-size:.9rem}
.keys li{display:flex;align-items:center;gap:6px}
.keys svg{flex:none}
details{margin:10px 0}
summary{cursor:pointer;color:var(--mark);padding:6px 0}
.scrolls{overflow-x:auto;max-width:100%}
table{border-collapse:collapse;font-size:.86rem;font-variant-numeric:tabular-nums;overflow-wrap:normal}
caption{text-align:left;color:var(--soft);padding:4px 0;white-space:nowrap}
th,td{padding:4px 9px;border-bottom:1px solid var(--line);text-align:left;vertical-align:top}
thead th{border-bottom:2px solid var(--ink);white-space:nowrap}
tbody th{font-weight:600;white-space:nowrap}
.number{text-align:right}
td.number,td.tight{white-space:nowrap}
td.long{min-width:20em}
tr:target>*{background:var(--warn);color:var(--warn-ink)}
code{font-size:.86em}
.axis{font-size:11px;fill:var(--soft)}
.axis line{stroke:var(--line)}
.axis-name{font-size:11px;fill:var(--soft)}
.zero{stroke:var(--ink)}
.bar-name{font-size:12px;font-weight:600;paint-order:stroke;stroke:var(--paper);stroke-width:3px}
.bar-text{font-size:11px;paint-order:stroke;stroke:var(--paper);stroke-width:3px}
.night{fill:var(--night)}
.wind{fill:none;stroke:var(--mark);stroke-width:2}
.gust{fill:none;stroke:var(--strong);stroke-width:1.5;stroke-dasharray:4 2.5}
.edge{stroke:#1a1a1a;stroke-width:.8;fill-rule:nonzero}
.bare{fill:var(--paper);stroke:var(--ink);stroke-width:1;stroke-dasharray:3 2}
.change line{stroke:var(--ink);stroke-width:1}
.change circle,.change path{fill:var(--paper);stroke:var(--ink);stroke-width:1.4}
.change text{font-size:10px;font-weight:600;fill:var(--ink)}
.change:hover circle,.change:focus circle,.change:hover path,.change:focus path{fill:var(--warn);stroke-width:2.4}
.change:hover text,.change:focus text{fill:var(--warn-ink)}
.change:focus{outline:2px solid var(--mark)}
.sea{fill:var(--sea)}
.land{fill:var(--land);stroke:var(--soft);stroke-width:.7}
.border{fill:none;stroke:var(--ink)}
.route{fill:none;stroke:var(--soft);stroke-width:1;stroke-dasharray:1.5 3}
.track{fill:none;stroke-width:4;stroke-linejoin:round}
.track.edge{stroke:#1a1a1a;stroke-width:6.5}
.narrow .track{stroke-width:3}
.narrow .track.edge{stroke-width:4.8}
.track.bare{stroke:var(--ink);stroke-width:2;stroke-dasharray:2 3;fill:none}
.arrow path{fill:none;stroke:var(--mark);stroke-width:1.3}
.waypoint{fill:var(--paper);stroke:var(--ink);stroke-width:1.5}
.noon{fill:var(--paper);stroke:var(--ink);stroke-width:1.6}
.noon-name,.place-name,.curve-name{font-size:11px;paint-order:stroke;stroke:var(--sea);stroke-width:3px}
.place-name{font-weight:600}
.leader{stroke:var(--soft);stroke-width:.8}
.day-part{fill:var(--mark)}
.night-part{fill:url(#hatch);stroke:var(--mark)}
.part-day{fill:var(--pale);stroke:var(--mark);stroke-width:.8}
.used-part{fill:url(#hatch);stroke:var(--mark)}
.taken-part{fill:var(--strong)}
.left-part{fill:none;stroke:var(--soft)}
.band-part{fill:var(--pale)}
.mid-part{fill:var(--mark)}
.low-part{fill:var(--mark)}
.high-part{fill:url(#hatch);stroke:var(--mark)}
.whisker{fill:none;stroke:var(--ink);stroke-width:1.6}
.window{fill:var(--window);fill-opacity:.55;stroke:var(--soft);stroke-width:.9}
.met line{stroke:var(--strong);stroke-width:1;stroke-opacity:.35}
.met circle{fill:var(--strong)}
.curve path{fill:none;stroke:var(--mark);stroke-width:1.6}
.curve .dot{fill:var(--mark)}
.curve .open{fill:var(--paper);stroke:var(--mark);stroke-width:1.4}
.curve .ring{fill:none;stroke:var(--strong);stroke-width:2.6}
.curve-1 path{stroke:var(--strong);stroke-dasharray:5 3}
.curve-1 .dot{fill:var(--strong)}
.curve-1 .open{stroke:var(--strong)}
.curve-name{stroke:var(--paper)}
.shade{fill:var(--mark);stroke:var(--line);stroke-width:.6}
.in-cell{fill:var(--ink)}
.course{fill:none;stroke:var(--mark);stroke-width:2.6}
.ring{fill:none;stroke:var(--strong);stroke-width:2.6}
.ring-line{fill:none;stroke:var(--line)}
.polar path{fill:none;stroke-width:2}
.polar-0 path{stroke:var(--mark)}
.polar-1 path{stroke:var(--strong)}
.unseen{fill:transparent}
.crossing{fill:var(--ink)}
.crossing .frame,.crossing .axes line{stroke:var(--ink)}
.hatch-line{stroke:var(--mark);stroke-width:2}
#tip{position:absolute;z-index:2;max-width:min(340px,90vw);padding:6px 10px;background:var(--ink);color:var(--paper);font-size:.86rem;border-radius:3px;pointer-events:none}
@media (max-width:640px){caption{white-space:normal;max-width:calc(100vw - 28px)}.stacks thead{display:none}.stacks tr{display:flex;flex-wrap:wrap;border-bottom:1px solid var(--line)}.stacks th,.stacks td{border:0}.stacks td.long{flex:1 0 100%;min-width:0}.stacks [data-unit]::after{content:' ' attr(data-unit)}body{font-size:15px}main{padding:8px 12px 32px}.caution{padding:10px 12px}.chart.wide{display:none}.chart.narrow{display:block}}
@media print{:root{color-scheme:light;--paper:#fff;--ink:#111;--soft:#444;--line:#bbb;--sea:#f1f5f7;--land:#ddd6c6;--night:#e3e6ec;--mark:#0b5874;--strong:#a33d0f;--pale:#c3d5dd;--warn:#fff;--warn-ink:#111;--panel:#fff;--window:#d9e9df}@page{size:A4;margin:14mm}body{font-size:10pt}main{max-width:none;padding:0}.caution{border:1.5pt solid #111;padding:6pt}.chart.wide{display:block}.chart.narrow,nav,#tip{display:none}tr,.answer li,.keys li,figcaption>p{break-inside:avoid}h2,h3,caption,.chart,thead{break-after:avoid}.chart.wide{max-width:155mm;max-height:200mm}figcaption p{break-before:avoid}p,li{orphans:3;widows:3}.scrolls{overflow:visible}table{font-size:7.5pt}th,td,tbody th,thead th,td.number{padding:2pt 4pt;white-space:normal}details:not([open]){display:none}}
`;
