/** A place where `size` tasks wait for each other, so that what follows happens at once. */
export function meeting(size: number): () => Promise<void> {
  let arrived = 0;
  let open = () => {};
  const everybody = new Promise<void>((resolve) => {
    open = resolve;
  });
  return () => {
    arrived += 1;
    if (arrived === size) open();
    return everybody;
  };
}
