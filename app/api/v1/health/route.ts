/** Says that this instance answers. It looks at nothing, so it also tells how fast a route that does nothing is. */
export const GET = (): Response => Response.json({ ok: true }, { headers: { "cache-control": "no-store" } });
