import { writeFile } from "node:fs/promises";
import { toBuffer } from "bwip-js/node";
import sharp from "sharp";

/** Chromium's own stand-in for a camera: it shows a file, and asks nobody. */
export const cameraShowing = (file: string): readonly string[] => [
  "--use-fake-ui-for-media-stream",
  "--use-fake-device-for-media-stream",
  `--use-file-for-fake-video-capture=${file}`,
];

/** What a camera before a label sees: the code on white, not filling the picture, a little turned and not quite sharp. */
export async function filmCode(file: string, text: string): Promise<void> {
  const code = await toBuffer({ bcid: "qrcode", text, scale: 5 });
  const turned = await sharp(code)
    .flatten({ background: "#ffffff" })
    .extend({ top: 30, bottom: 30, left: 30, right: 30, background: "#ffffff" })
    .rotate(4, { background: "#cfd4d8" })
    .resize({ height: 330 })
    .png()
    .toBuffer();
  const frame = await sharp({ create: { width: 640, height: 480, channels: 3, background: "#cfd4d8" } })
    .composite([{ input: turned }])
    .blur(0.6)
    .jpeg({ quality: 80 })
    .toBuffer();
  // A film of still pictures is one picture after the other.
  await writeFile(file, Buffer.concat([frame, frame]));
}
