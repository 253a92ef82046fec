import { type RefObject, useEffect, useRef, useState } from "react";
import { CodeReader } from "./code-reader.client";

/** Why nothing can be scanned here. */
export type NoCamera = "plain-http" | "no-camera" | "not-allowed" | "in-use" | "no-reader";

export type CameraState =
  | { readonly state: "starting" | "looking" }
  | { readonly state: "none"; readonly why: NoCamera };

/** Between two looks: a phone stays cool, and a hand that moves is still for long enough. */
const EVERY_MS = 150;

/** Looks through the camera at the back until it is taken away, and tells at each look what the code before it holds. */
export function useCamera(video: RefObject<HTMLVideoElement | null>, onText: (text: string) => void): CameraState {
  const [state, setState] = useState<CameraState>({ state: "starting" });
  const tell = useRef(onText);
  useEffect(() => {
    tell.current = onText;
  });
  useEffect(() => {
    const looking = new Looking((text) => tell.current(text), setState);
    void looking.begin(video.current);
    return () => looking.end();
  }, [video]);
  return state;
}

/** One time of looking: camera, reader and timer begin and end together, however early somebody closes it. */
class Looking {
  readonly #onText: (text: string) => void;
  readonly #onState: (state: CameraState) => void;
  #stream: MediaStream | null = null;
  #reader: CodeReader | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #ended = false;

  constructor(onText: (text: string) => void, onState: (state: CameraState) => void) {
    this.#onText = onText;
    this.#onState = onState;
  }

  async begin(video: HTMLVideoElement | null): Promise<void> {
    if (!video) return;
    // Browsers give the camera to secure pages alone, and then the whole interface is missing.
    if (!window.isSecureContext) return this.#none("plain-http");
    if (!navigator.mediaDevices) return this.#none("no-camera");
    try {
      const stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" }, audio: false });
      this.#stream = stream;
      if (this.#ended) return this.end();
      video.srcObject = stream;
      await video.play();
      this.#reader = new CodeReader();
      if (this.#ended) return this.end();
      this.#onState({ state: "looking" });
      this.#lookLater(video);
    } catch (problem) {
      this.#none(whyNot(problem));
    }
  }

  end(): void {
    this.#ended = true;
    clearTimeout(this.#timer);
    this.#reader?.close();
    for (const track of this.#stream?.getTracks() ?? []) track.stop();
  }

  #none(why: NoCamera): void {
    if (!this.#ended) this.#onState({ state: "none", why });
    this.end();
  }

  #lookLater(video: HTMLVideoElement): void {
    if (!this.#ended) this.#timer = setTimeout(() => void this.#look(video), EVERY_MS);
  }

  async #look(video: HTMLVideoElement): Promise<void> {
    try {
      const [text] = (await this.#reader?.read(await createImageBitmap(video))) ?? [];
      if (this.#ended) return;
      if (text !== undefined) this.#onText(text);
      this.#lookLater(video);
    } catch {
      this.#none("no-reader");
    }
  }
}

function whyNot(problem: unknown): NoCamera {
  const name = problem instanceof DOMException ? problem.name : "";
  if (name === "NotAllowedError" || name === "SecurityError") return "not-allowed";
  return name === "NotReadableError" || name === "AbortError" ? "in-use" : "no-camera";
}
