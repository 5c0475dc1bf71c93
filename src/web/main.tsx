import "./theme/tokens.css";
import "./theme/base.css";
import "./theme/print.css";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { places } from "./places.ts";
import { loadFirst } from "./shell/place-shown.tsx";
import { Shell } from "./shell/shell.tsx";
import { readKept } from "./state/device.ts";
import { followHistory, goTo, location } from "./state/location.ts";
import { followTheme } from "./state/preferences.ts";
import { followUndoKeys } from "./state/undoable.ts";

followTheme();
followUndoKeys();
followHistory();
if (location.get().path === "/") goTo(places[0]!.path, "", true);

await Promise.all([readKept(), loadFirst(location.get().path)]);
createRoot(document.getElementById("bench")!).render(
  <StrictMode>
    <Shell />
  </StrictMode>,
);
