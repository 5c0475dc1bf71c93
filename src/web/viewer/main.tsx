import "../theme/tokens.css";
import "../theme/base.css";
import "./viewer.css";
import { createRoot } from "react-dom/client";
import { PAGE_SLOTS, type PageContent } from "../../publish/index.ts";
import { tellHeight } from "./frame-size.ts";
import { ViewerPage } from "./viewer-page.tsx";

const content = JSON.parse(document.getElementById(PAGE_SLOTS.content)!.textContent!) as PageContent;
const place = document.getElementById("page")!;
createRoot(place).render(<ViewerPage content={content} />);
tellHeight(place);
