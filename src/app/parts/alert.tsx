/** What is wrong, said at once; nothing where nothing is. */
export function Alert({ children }: { readonly children: string | null }) {
  if (children === null) return null;
  return (
    <p class="alert" role="alert">
      {children}
    </p>
  );
}
