/// <reference types="vitest/config" />
import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

export default defineConfig({
  base: "./",
  plugins: [react()],
  worker: { format: "es" },
  build: { target: "es2023", outDir: "dist", emptyOutDir: true },
  test: { include: ["tests/**/*.test.ts", "tests/**/*.test.tsx"], testTimeout: 30_000 },
});
