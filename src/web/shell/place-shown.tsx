import { Component, type ComponentType, type ReactNode, useEffect, useState } from "react";
import { type PlaceEntry, places } from "../places.ts";
import { location, nearing } from "../state/location.ts";
import { useStore } from "../state/use-store.ts";
import { arrived } from "./arrived.ts";

interface Shown {
  readonly path: string;
  readonly Place: ComponentType;
}

/** What was loaded before the page was first drawn. */
let first: Shown | null = null;

const placeOf = (path: string): PlaceEntry | undefined => places.find((one) => one.path === path);

/** Loads the place of an address, so that it is there when the page is first drawn. */
export async function loadFirst(path: string): Promise<void> {
  const place = placeOf(path);
  if (place === undefined) return;
  try {
    first = { path, Place: (await place.load()).Place };
  } catch {
    // It is asked for again where trouble can be told.
  }
}

/** The place of the address: the one before stands until it is there. */
export function PlaceShown() {
  useEffect(
    () =>
      nearing.subscribe(() => {
        // What is not to be had now is asked for again when it is opened.
        placeOf(nearing.get() ?? "")
          ?.load()
          .catch(() => undefined);
      }),
    [],
  );
  const { path } = useStore(location);
  const [shown, setShown] = useState(first);
  const [trouble, setTrouble] = useState<{ readonly path: string; readonly error: unknown } | null>(null);
  const place = placeOf(path);
  useEffect(() => {
    if (place === undefined || shown?.path === path) return;
    let wanted = true;
    place.load().then(
      ({ Place }) => wanted && setShown({ path, Place }),
      (error: unknown) => wanted && setTrouble({ path, error }),
    );
    return () => {
      wanted = false;
    };
  }, [place, path, shown]);
  const here = place === undefined || shown?.path === path ? path : null;
  useEffect(() => {
    if (here !== null) arrived(here);
  }, [here]);
  if (place === undefined) return <NoSuchPlace />;
  if (trouble?.path === path) return <Failed place={place.name} error={trouble.error} />;
  if (shown === null) return <p>Opening {place.name}…</p>;
  const { Place } = shown;
  return (
    <Guard key={shown.path} place={placeOf(shown.path)?.name ?? ""}>
      <Place />
    </Guard>
  );
}

/** A place that fails while it is drawn takes nothing of the shell with it. */
class Guard extends Component<
  { readonly place: string; readonly children: ReactNode },
  { readonly error: unknown; readonly failed: boolean }
> {
  override state: { readonly error: unknown; readonly failed: boolean } = { error: null, failed: false };
  static getDerivedStateFromError(error: unknown) {
    return { error, failed: true };
  }
  override render(): ReactNode {
    return this.state.failed ? <Failed place={this.props.place} error={this.state.error} /> : this.props.children;
  }
}

function NoSuchPlace() {
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
