import { isValidElement, Suspense } from "react";
import { describe, expect, it } from "vitest";
import { whenRead } from "@/app/_parts/when-read";

const shown = (rooms: number) => `${rooms} rooms`;

describe("a page that reads", () => {
  it("shows what is there at once, without its empty places", async () => {
    expect(await whenRead(Promise.resolve(24), shown, "reading")).toBe("24 rooms");
  });

  it("shows the empty places while it takes long", async () => {
    const never = new Promise<number>(() => undefined);
    const page = await whenRead(never, shown, "reading");
    expect(isValidElement<{ fallback: string }>(page) && page.type === Suspense && page.props.fallback).toBe("reading");
  });

  it("fails with the reading, and does not take it for something to show", async () => {
    await expect(whenRead(Promise.reject(new Error("no database")), shown, "reading")).rejects.toThrow("no database");
  });
});
