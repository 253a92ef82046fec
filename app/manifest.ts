import type { MetadataRoute } from "next";

/** What a browser needs to put the application among a device's own. */
export default function manifest(): MetadataRoute.Manifest {
  return {
    name: "Yokeboard",
    short_name: "Yokeboard",
    description: "Which rooms can start, and if not, what is missing and who is on it.",
    id: "/",
    start_url: "/",
    scope: "/",
    display: "standalone",
    background_color: "#f4f3ee",
    theme_color: "#1b2125",
    icons: [
      { src: "/icon-192.png", sizes: "192x192", type: "image/png" },
      { src: "/icon-512.png", sizes: "512x512", type: "image/png" },
      { src: "/icon-maskable-512.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
    ],
  };
}
