/** A series as one page that stands by itself: question, words, gear, pulls, comparison, limits, method, data. */
import { escaped } from "../../figure/index.ts";
import { CAUTION, INVENTED } from "../../words/index.ts";
import { slug } from "../data/descriptor.ts";
import { list, page, paragraph, section } from "../report/page.ts";
import { PAGE_STYLE } from "../report/style.ts";
import { byThemselves, cautions, concluded, inShort, notConcluded } from "./comparison.ts";
import { budget, everyPull } from "./every-pull.ts";
import { days, gear } from "./gear-and-days.ts";
import { markdownHtml } from "./markdown.ts";
import type { SeriesReport } from "./series.ts";

const METHOD = [
  "Loads read at the bow are carried down the rode, as it lay in the pull's own water, to the load and the angle at the anchor: an elastic catenary with its weight in water, solved to rounding (Irvine, Cable Structures, 1981). Uncertainty is to first order (JCGM 100:2008).",
  "Curves: Kaplan and Meier (1958), with log-log limits; Turnbull (1976) where a load lies between two. Fits: accelerated failure times by maximum likelihood, pulls that held on right-censored, those that never held left-censored.",
  "Conclusions: one hierarchical model of ln of the load at the anchor with terms of anchor, angle, mass and seabed and spreads of sites and days, sampled by Hamiltonian Monte Carlo; answers are given only where the chains agree.",
];

/** Room for a report of its own: what a page of a reduction has not. */
const STYLE = `${PAGE_STYLE}
blockquote{margin:0 0 .8rem;padding-left:.9rem;border-left:3px solid var(--edge);max-width:64ch}
pre{overflow-x:auto;background:var(--wash);padding:.6rem .8rem}
h3,h4,h5,h6{font-size:1rem;margin:1.2rem 0 .4rem;break-after:avoid}
a{color:var(--figure-computed)}
@media print{section{break-inside:auto}.caution{break-before:avoid}a{color:inherit}}`;

/** @returns a whole HTML page without a script, which asks for nothing from anywhere */
export function seriesReport(report: SeriesReport): string {
  const { title, by, question, protocol, words, version, files } = report;
  const body = `<main>
<header>
<h1>${escaped(title)}</h1>
<p class="under">${escaped(by === "" ? `${report.compared.pulls.length} pulls` : `Tested by ${by}; ${report.compared.pulls.length} pulls`)}</p>
${report.invented === true ? `<p><strong>${INVENTED}</strong></p>\n` : ""}</header>
${section(
  "In short",
  question === "" ? "" : `<p><strong>${escaped(question)}</strong></p>\n`,
  list(inShort(report)),
)}${words.length === 0 ? "" : `<section>\n<h2>In the tester's words</h2>\n${words.map(markdownHtml).join("")}</section>\n`}${protocol === "" ? "" : section("Protocol", paragraph(protocol))}${gear(report)}${days(report)}${everyPull(report)}${budget(report)}${byThemselves(report)}${concluded(report)}${cautions(report)}${notConcluded(report)}${section("How this was computed", ...METHOD.map(paragraph))}${attached(report)}<p class="caution">${escaped(CAUTION)}</p>
</main>
<footer>
${paragraph(`Made from ${files.join(" and ")} by rodebench ${version}.`)}</footer>
`;
  return page(title, STYLE, body);
}

function attached({ title, csv }: SeriesReport): string {
  let bytes = "";
  for (const byte of new TextEncoder().encode(csv)) bytes += String.fromCharCode(byte);
  const name = `${slug(title)}-pulls.csv`;
  return section(
    "The data",
    `<p>The pulls as a table (CSV) lie in this page: <a download="${name}" href="data:text/csv;charset=utf-8;base64,${btoa(bytes)}">${name}</a>. <code>rodebench compare</code> reads it. Columns: load at the anchor in newtons, held to or given way by; uncertainty; mass; angle in degrees.</p>\n`,
  );
}
