"use client";

import { useEffect, useState } from "react";
import { sender } from "./sender.client";

const EVERY_MS = 5_000;

/** Does the server answer again? Asked now and then, and at once when the device says that it is back on a network. */
export function useReached(): boolean {
  const [reached, setReached] = useState(false);
  useEffect(() => {
    let left = false;
    const ask = async () => {
      const answers = await fetch("/api/v1/health", { cache: "no-store" }).then(
        ({ ok }) => ok,
        () => false,
      );
      if (left) return;
      setReached((before) => {
        if (answers && !before) sender().hurry();
        return answers;
      });
    };
    ask();
    const timer = setInterval(ask, EVERY_MS);
    window.addEventListener("online", ask);
    return () => {
      left = true;
      clearInterval(timer);
      window.removeEventListener("online", ask);
    };
  }, []);
  return reached;
}
