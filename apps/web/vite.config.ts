import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react()],
  // The content security policy allows no data: address for anything but pictures.
  build: { outDir: "../../dist/web", emptyOutDir: true, assetsInlineLimit: 0 },
  server: { host: "127.0.0.1", proxy: { "/api": "http://127.0.0.1:4330" } },
});
