import { pictureStyle } from './pictureStyle';

/** The style sheet of the report: from 320 px up, light, dark and on paper. */
export function pageStyle(): string {
  return `${pictureStyle(':root')}
:root{color-scheme:light dark}
*{box-sizing:border-box}
[hidden]{display:none!important}
html{scroll-padding-bottom:7rem}
body{margin:0;background:var(--dl-paper);color:var(--dl-ink);font:16px/1.5 system-ui,sans-serif;overflow-wrap:anywhere}
main,.top,footer{max-width:74rem;margin:0 auto;padding:0 clamp(.8rem,3vw,2rem)}
h1{font-size:clamp(1.4rem,4vw,2.1rem);line-height:1.2;margin:1.2rem 0 .3rem}
h2{font-size:1.35rem;line-height:1.25;margin:0 0 .8rem}
h3{font-size:1.08rem;margin:1.4rem 0 .4rem}
h4{font-size:1rem;margin:0 0 .4rem}
p,ul,ol{margin:.5rem 0;max-width:62rem}
section{border-top:3px solid var(--dl-ink);padding:1rem 0 .6rem;margin-top:2.2rem}
@media screen{nav~section{content-visibility:auto;contain-intrinsic-size:auto 60rem}}
a{color:inherit;text-underline-offset:.2em}
:focus-visible{outline:3px solid #0072B2;outline-offset:2px}
@media (prefers-color-scheme:dark){:focus-visible{outline-color:#56B4E9}}
.skip{position:absolute;left:-99rem}
.skip:focus{left:1rem;top:1rem;background:var(--dl-paper);padding:.5rem 1rem;z-index:3}
.under,.note{color:var(--dl-soft);font-size:.86rem}
td .under,th .under,.figure .under{display:block;font-weight:400}
table .under,.figure .interval{font-size:.92em}
.lead{color:var(--dl-soft);margin:.2rem 0}
nav{margin-top:1.4rem}
nav ul{display:flex;flex-wrap:wrap;gap:.2rem 1.1rem;list-style:none;padding:0;font-size:.92rem}
nav a{display:inline-block;padding:.25rem 0}
.findings{font-size:1.12rem}
.findings,.shown,.worst{padding-left:1.4rem}
.care{border-left:4px solid #D55E00;background:var(--dl-band);padding:.6rem 1rem;margin:1.2rem 0}
.care h3{margin:0 0 .3rem}
.care ul{margin:0;padding-left:1.1rem;font-size:.94rem}
.scroll{overflow-x:auto;max-width:100%}
table{border-collapse:collapse;font-variant-numeric:tabular-nums;font-size:.93rem;overflow-wrap:normal}
caption{text-align:left;font-weight:600;padding:.3rem 0 .5rem}
th,td{text-align:left;vertical-align:top;padding:.45rem .9rem .45rem .2rem;border-bottom:1px solid var(--dl-rule)}
thead th{border-bottom:2px solid var(--dl-ink);vertical-align:bottom}
td:last-child,th:last-child{padding-right:.2rem}
tbody th{font-weight:600;min-width:7.5rem}
tbody th,thead th:first-child{position:sticky;left:0;z-index:1;background:var(--dl-paper)}
tr.total>*{border-top:2px solid var(--dl-ink)}
tr[data-from]:hover>*{background:var(--dl-band)}
.words p{margin:0 0 .4rem}
td .words{min-width:15rem}
.figure{min-width:8.2rem}
.figure .interval{color:var(--dl-soft)}
.figure sup{font-style:italic;margin-left:.15rem}
.weak,.weak strong{color:var(--dl-soft);font-weight:400}
.receiver{display:inline-block;max-width:100%}
.receiver svg{width:30px;height:12px;vertical-align:-.05em;margin-right:.35rem}
.dl-picture{display:block;max-width:100%;height:auto}
.receiver .dl-picture{display:inline-block;max-width:none}
.range{margin:.1rem 0}
.wide .dl-picture{min-width:720px;width:100%}
.plan{max-width:34rem}
.plan .dl-picture{width:100%}
.narrow-screen{display:none}
@media screen and (max-width:40rem){.wide-screen{display:none}.narrow-screen{display:block}}
.walk .dl-picture{display:inline-block}
figure{margin:.6rem 0}
figcaption{color:var(--dl-soft);font-size:.86rem}
.cards,.ribbons{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,15.5rem),1fr));gap:1.2rem;padding:0;list-style:none;max-width:none}
.card{min-width:0}
.card h3{font-size:1rem;margin:0 0 .3rem}
button{font:inherit;font-size:.86rem;color:inherit;background:var(--dl-band);border:1px solid var(--dl-soft);border-radius:.3rem;padding:.1rem .45rem;cursor:pointer}
.ribbons{grid-template-columns:repeat(auto-fill,minmax(min(100%,18rem),1fr))}
.plain{list-style:none;padding:0;font-size:.93rem}
.badge{display:inline-block;min-width:1.6em;padding:0 .35em;text-align:center;border:2px solid currentColor;border-radius:1em;font-size:.9em}
.columns{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,28rem),1fr));gap:0 2.4rem}
.columns>div{min-width:0}
@media screen and (max-width:62rem){.answer>:first-child{order:1}}
.stretch{border-top:1px solid var(--dl-rule);padding:.2rem 0 .4rem}
.stretch h3{margin:.8rem 0 .2rem}
h3 .under{font-weight:400}
.pictures{display:grid;grid-template-columns:minmax(0,7fr) minmax(0,3fr);gap:0 1.6rem;align-items:center}
.pictures .dl-picture{width:100%}
.pictures .wide .dl-picture{min-width:560px}
.method{columns:2 26rem;column-gap:2.4rem;max-width:none;font-size:.9rem;padding-left:1.1rem}
.reasons{list-style:lower-alpha;columns:2 26rem;max-width:none;padding-left:1.6rem}
.pair .difference{white-space:nowrap}
details{margin:.6rem 0}
summary{cursor:pointer;padding:.25rem 0}
.hashes{font-size:.86rem}
footer{padding-bottom:1rem}
.dl-pointer line,.dl-pointer path{stroke:var(--dl-ink);stroke-width:1.2;fill:none}
.dl-pointer circle{fill:var(--dl-ink);stroke:var(--dl-paper);stroke-width:2}
.dl-pointer rect{fill:var(--dl-ink);fill-opacity:.1;stroke:none}
.dl-pointer path{stroke-width:8;stroke-opacity:.25;stroke-linecap:round}
.dl-lit .dl-badge{fill:var(--dl-ink)}
.dl-picture .dl-lit text{fill:var(--dl-paper)}
.card.dl-lit h3 .badge{background:var(--dl-ink);color:var(--dl-paper)}
.walk{position:sticky;bottom:0;z-index:2;background:var(--dl-paper);border-top:2px solid var(--dl-ink)}
.walk>div{max-width:74rem;margin:0 auto;padding:.35rem clamp(.8rem,3vw,2rem) .5rem}
.walk ul{display:flex;flex-wrap:wrap;gap:.1rem 1.2rem;list-style:none;margin:0;padding:0;font-size:.9rem;max-width:none;font-variant-numeric:tabular-nums;max-height:5.6rem;overflow-y:auto}
.walk label{display:flex;gap:.8rem;align-items:center;font-size:.9rem}
.walk input{flex:1;min-width:6rem;accent-color:#0072B2}
@media (prefers-color-scheme:dark){.walk input{accent-color:#56B4E9}}
.walk label span{white-space:nowrap}
.walk output{min-width:5.5em;max-width:50%;max-height:3em;overflow:hidden;text-align:right}
@media (max-width:40rem){
body{font-size:15px}
section{margin-top:1.6rem}
.pictures{grid-template-columns:minmax(0,1fr)}
.walk>div{padding-block:.2rem}
.walk label span{position:absolute;left:-99rem}
.walk ul{flex-wrap:nowrap;overflow-x:auto}
.walk li{white-space:nowrap}
}
@media print{
html{font-size:9pt}
body{font-size:1rem;line-height:1.35}
main,.top{padding:0}
.walk,nav,.skip,button,.dl-pointer{display:none}
section{break-inside:auto;margin-top:1.2rem;padding-top:.6rem}
.card,.pictures,tr,.care{break-inside:avoid}
h2,h3,h4{break-after:avoid}
.scroll{overflow:visible}
.shown,.findings,.worst{orphans:3;widows:3}
.wide .dl-picture,.pictures .wide .dl-picture{min-width:0}
.on-screen{display:none}
.columns{display:block;columns:2;column-gap:1.2rem}
.columns>:first-child{column-span:all}
table{font-size:.88rem}
th,td{padding:.25rem .5rem .25rem .1rem}
tbody th,td .words,.figure{min-width:0}
tbody th,thead th:first-child{position:static}
thead{display:table-header-group}
.range{width:84px}
.cards{grid-template-columns:repeat(4,minmax(0,1fr));gap:.8rem}
.plan{max-width:none}
.plan .dl-picture{max-height:10cm;margin:0 auto}
details::details-content{content-visibility:visible;block-size:auto}
}`;
}
