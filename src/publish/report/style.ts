import { inkProperties } from "../../figure/index.ts";

/** The look of a page of ours: calm, for a screen in either light and for A4 or Letter paper. */
export const PAGE_STYLE = `:root{${inkProperties("light")};--edge:#d3dae0;--wash:#f4f6f8;color:#17212b;background:#fff}
@media screen and (prefers-color-scheme:dark){:root{${inkProperties("dark")};--edge:#334250;--wash:#18242f;color:#edf2f6;background:#0f1820}}
*{box-sizing:border-box}
body{margin:0 auto;padding:28px 20px 40px;max-width:720px;font:16px/1.5 system-ui,"Segoe UI",Roboto,Helvetica,Arial,sans-serif;overflow-wrap:anywhere}
h1{font-size:1.75rem;line-height:1.2;margin:0 0 .25rem;font-weight:650}
h2{font-size:1.15rem;line-height:1.3;margin:2.2rem 0 .6rem;font-weight:650}
p,ul{margin:0 0 .8rem;max-width:64ch}
ul{padding-left:1.2rem}
li{margin-bottom:.35rem}
.under{color:var(--figure-soft);margin:0 0 1.4rem}
.found{display:grid;grid-template-columns:repeat(auto-fit,minmax(200px,1fr));gap:1px;margin:1.2rem 0;padding:0;background:var(--edge);border:1px solid var(--edge)}
.found>div{background:var(--figure-paper);padding:.7rem .9rem .8rem}
.found dt{color:var(--figure-soft);font-size:.85rem}
.found dd{margin:0;font-size:1.6rem;line-height:1.25;font-weight:650;font-variant-numeric:tabular-nums}
.found dd span{font-size:.95rem;font-weight:500;white-space:nowrap}
.found dd small{display:block;font-size:.75rem;font-weight:400;color:var(--figure-soft)}
figure{margin:0 0 1.2rem}
figcaption{font-size:.85rem;line-height:1.45;color:var(--figure-soft);max-width:72ch}
figure svg{display:block;min-width:560px;max-width:100%;height:auto}
.wide{overflow-x:auto}
table{border-collapse:collapse;width:100%;font-size:.9rem;font-variant-numeric:tabular-nums;overflow-wrap:normal}
caption{text-align:left;color:var(--figure-soft);font-size:.85rem;padding-bottom:.4rem}
th,td{text-align:left;padding:.3rem .9rem .3rem 0;border-bottom:1px solid var(--edge);font-weight:400;vertical-align:baseline;white-space:nowrap}
thead th{color:var(--figure-soft);border-bottom-color:var(--figure-soft);white-space:normal}
.number{text-align:right}
.marked th,.marked td{background:var(--wash);font-weight:600}
.caution{border-left:4px solid var(--figure-measured);padding:.2rem 0 .2rem .9rem;margin-top:2rem}
footer{margin-top:2.2rem;padding-top:.8rem;border-top:1px solid var(--edge);font-size:.85rem;color:var(--figure-soft)}
footer p{margin:0 0 .2rem}
@page{margin:16mm 15mm}
@media print{body{max-width:none;padding:0;font-size:10pt}th,td{padding-top:.1rem;padding-bottom:.1rem}h1{font-size:18pt}h2{font-size:12.5pt;break-after:avoid;margin-top:1.4rem}figure,tr,.found,.caution{break-inside:avoid}figure svg{min-width:0;width:100%}thead{display:table-header-group}.wide{overflow:visible}}`;
