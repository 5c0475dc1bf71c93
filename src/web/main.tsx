import "./theme/tokens.css";
import "./theme/base.css";
import { RouterProvider } from "@tanstack/react-router";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { places } from "./places.ts";
import { router } from "./router.tsx";
import { readKept } from "./state/device.ts";
import { followTheme } from "./state/preferences.ts";
import { followUndoKeys } from "./state/undoable.ts";

followTheme();
followUndoKeys();
router.subscribe("onResolved", ({ toLocation, pathChanged }) => {
  const place = places.find(({ path }) => path === toLocation.pathname);
  document.title = place ? `${place.name} · rodebench` : "rodebench";
  // Whoever cannot see the page hears of the change of place: the focus goes there.
  if (pathChanged && document.activeElement?.closest("nav")) document.getElementById("place")?.focus();
});

await Promise.all([readKept(), router.load()]);
createRoot(document.getElementById("bench")!).render(
  <StrictMode>
    <RouterProvider router={router} />
  </StrictMode>,
);
