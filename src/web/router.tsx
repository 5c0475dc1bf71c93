import {
  createRootRoute,
  createRoute,
  createRouter,
  lazyRouteComponent,
  type NotFoundRouteProps,
  redirect,
} from "@tanstack/react-router";
import { places } from "./places.ts";
import { Shell } from "./shell/shell.tsx";
import { parseSearch, stringifySearch } from "./state/address.ts";

const root = createRootRoute({ component: Shell, notFoundComponent: NoSuchPlace });

const start = createRoute({
  getParentRoute: () => root,
  path: "/",
  beforeLoad: () => {
    throw redirect({ to: places[0]!.path, replace: true });
  },
});

const routes = places.map((place) =>
  createRoute({
    getParentRoute: () => root,
    path: place.path,
    component: lazyRouteComponent(place.load, "Place"),
    pendingComponent: () => <p>Opening {place.name}…</p>,
    errorComponent: ({ error }) => <Failed place={place.name} error={error} />,
  }),
);

/** Search texts stay texts: each place reads its own fields. */
export const router = createRouter({
  routeTree: root.addChildren([start, ...routes]),
  parseSearch,
  stringifySearch,
  defaultPreload: "intent",
  scrollRestoration: false,
});

function NoSuchPlace(_: NotFoundRouteProps) {
  return (
    <>
      <h1>No such place</h1>
      <p>
        The bench has {places.map((place) => place.name).join(", ")}; this address leads to none of them.{" "}
        <a href={places[0]!.path}>Open {places[0]!.name}</a>
      </p>
    </>
  );
}

function Failed({ place, error }: { readonly place: string; readonly error: unknown }) {
  return (
    <>
      <h1>{place} could not be opened</h1>
      <p>{error instanceof Error ? error.message : String(error)}</p>
      <p>
        What you changed is kept on this device. <a href="/">Start again</a>
      </p>
    </>
  );
}
