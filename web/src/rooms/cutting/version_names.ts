// Names of versions.

/** The next of `v1`, `v2` and so on that is free. */
export function nextVersion(names: readonly string[]): string {
  const numbers = names.flatMap((name) => {
    const match = /^v(\d{1,6})$/.exec(name);
    return match ? [Number(match[1])] : [];
  });
  return `v${Math.max(0, ...numbers) + 1}`;
}
