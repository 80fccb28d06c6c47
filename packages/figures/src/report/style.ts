import { resolvedStyleText } from "../theme.ts";
import type { Paper } from "./input.ts";

/** Rules of the page; every colour keeps 4.5 to 1 on white (WCAG 2.2, 1.4.3) and prints in black and white. */
const rules = `
:root{color-scheme:light;color:#1d2126;background:#fff;font:16px/1.45 Arial,Helvetica,"Liberation Sans",sans-serif}
body{max-width:54rem;margin:0 auto;padding:1rem}
h1{font-size:1.6rem;line-height:1.2;margin:.2rem 0 .8rem}
h2{font-size:1.2rem;margin:1.8rem 0 .5rem;border-bottom:2px solid #1d2126;padding-bottom:.15rem}
h3{font-size:1rem;margin:1.2rem 0 .4rem}
h1,td,th,p,li,dd,dt,figcaption,code,pre{overflow-wrap:anywhere}
p,ul,dl{margin:.5rem 0}
a{color:#0b4f86}
a:focus-visible,summary:focus-visible,.scrolls:focus-visible{outline:3px solid #0b4f86;outline-offset:2px}
nav ul{display:flex;flex-wrap:wrap;gap:.2rem 1rem;list-style:none;padding:0}
.kind{margin:0;color:#4a5159}
.title-block{display:flex;flex-wrap:wrap;gap:0 1.2rem;align-items:flex-start}
.title-block table{flex:1 1 18rem}
.caution-line{border:2px solid #1d2126;padding:.4rem .6rem}
.headline{font-size:1.25rem;font-weight:bold;margin-bottom:.2rem}
.headline .verdict{margin-right:.3em}
.scrolls,.title-block,.signed{padding-right:1px}
.scrolls{overflow-x:auto}
.scrolls>table{min-width:34rem}
table{table-layout:fixed;border-collapse:collapse;width:100%;font-size:.84rem;line-height:1.3;margin:.5rem 0 1rem;font-variant-numeric:tabular-nums}
caption{text-align:left;font-weight:bold;padding:.2rem 0}
th,td{border:1px solid #8a929c;padding:.22rem .4rem;text-align:left;vertical-align:top}
thead th{background:#e8ebee}
tbody th{font-weight:normal}
tr.group th{font-weight:bold;background:#f3f5f6}
.facts th{width:9.5rem}
.title-block .facts th{width:7.6rem}
.findings thead th:nth-child(1){width:30%}
.findings thead th:nth-child(2){width:10%}
.findings thead th:nth-child(3){width:13%}
.findings thead th:nth-child(4),.findings thead th:nth-child(5){width:7.5%}
.failures thead th:nth-child(1){width:21%}
.failures thead th:nth-child(2){width:12.5%}
.failures thead th:nth-child(4){width:28%}
.inputs thead th:nth-child(1){width:25%}
.inputs thead th:nth-child(3){width:18%}
.inputs thead th:nth-child(4){width:10%}
.inputs thead th:nth-child(5){width:27%}
.cases thead th:nth-child(1){width:34%}
.readings thead th:nth-child(1){width:43%}
.readings thead th:nth-child(2){width:22%}
.verdict{display:inline-block;border:2px solid #1d2126;border-radius:.3em;padding:0 .35em;font-weight:bold;font-size:.85em;white-space:nowrap}
.verdict{print-color-adjust:exact;-webkit-print-color-adjust:exact}
.verdict.caution{background:#d5d9dd}
.verdict.fail{background:#1d2126;color:#fff}
figure{margin:1rem 0 1.4rem}
figure svg{display:block;max-width:100%;height:auto}
figcaption{font-size:.9rem;margin-top:.3rem}
.inputs tr.assumed td:nth-child(4){font-weight:bold}
.readings tbody tr:not(.group){height:2rem}
.signed th{width:16rem}
.signed tr{height:2.2rem}
.title-block .blank{display:inline-block;min-height:1.3em}
dt{font-weight:bold}
dd{margin:0 0 .5rem}
code,pre{font-family:"Liberation Mono",Menlo,Consolas,monospace;font-size:.82em}
pre{white-space:pre-wrap;border:1px solid #8a929c;padding:.5rem}
@page{margin:14mm 14mm 16mm}
@media print{
:root{font-size:10.5pt}
body{max-width:none;padding:0}
nav{display:none}
h1{font-size:16pt}
h2,h3,caption{break-after:avoid}
h2{margin-top:1.2rem}
.scrolls{overflow:visible}
.scrolls>table{min-width:0}
table{font-size:8.5pt}
tr,.cases tbody,.readings tbody,figure,dl>div,.title-block,.caution-line,li,.signed{break-inside:avoid}
thead{display:table-header-group}
tr.group{break-after:avoid}
figure svg{max-height:222mm;width:auto;margin:0 auto}
.sheet{break-before:page}
.readings tbody tr:not(.group){height:7.5mm}
.signed tr{height:9mm}
a{color:inherit;text-decoration:none}
th,td{padding:.12rem .35rem}
pre{font-size:7pt;line-height:1.25;columns:2;column-gap:6mm}
}
`;

/** How pages are numbered, and with what they can be told from those of another report. */
const footer = (digest: string): string =>
  `@page{@bottom-left{content:"startgap, input ${digest.slice(0, 12)}";font:7.5pt Arial,sans-serif}` +
  `@bottom-right{content:"Page " counter(page) " of " counter(pages);font:7.5pt Arial,sans-serif}}`;

const sizes: Readonly<Record<Paper, string>> = { a4: "A4", letter: "letter" };

/** All rules of a report, those of its figures too: nothing in the body carries a style. */
export function reportStyle(digest: string, paper: Paper | undefined): string {
  const size = paper === undefined ? "" : `@page{size:${sizes[paper]}}`;
  return `${resolvedStyleText("light")}\n${rules.trim()}\n${footer(digest)}${size}`;
}
