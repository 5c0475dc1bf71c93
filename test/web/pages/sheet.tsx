/** A drawing for a part that is drawn into one. */
export function Sheet({ children }: { readonly children: React.ReactNode }) {
  return (
    <svg role="img" aria-label="A part alone">
      {children}
    </svg>
  );
}
