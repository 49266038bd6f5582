import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react()],
  // The content security policy allows no data: address for anything but pictures.
  build: { outDir: "../../dist/web", emptyOutDir: true, assetsInlineLimit: 0 },
  // A worker that fetches parts of itself must be a module.
  worker: { format: "es" },
  // While working on the client: `vite apps/web` beside a running server, which wants its own host.
  server: {
    host: "127.0.0.1",
    proxy: {
      "/api": {
        target: process.env["TUBULE_SERVER"] ?? "http://127.0.0.1:4330",
        changeOrigin: false,
      },
    },
  },
});
