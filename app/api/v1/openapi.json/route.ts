import { openApi } from "@/app/_edge/openapi";

const text = JSON.stringify(openApi());

/** The description of this API, made from the same schemas that check it. */
export const GET = (): Response =>
  new Response(text, { headers: { "content-type": "application/json", "cache-control": "no-cache" } });
