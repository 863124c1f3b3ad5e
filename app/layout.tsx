import type { Metadata, Viewport } from "next";
import type { ReactNode } from "react";
import { ShellNav } from "./_shell/shell-nav";
import "./_styles/base.css";

export const metadata: Metadata = {
  title: { default: "Lehrbook", template: "%s · Lehrbook" },
  description: "Kilns, steamers and hands of a shared glass-casting workshop, booked from a firing plan.",
};

export const viewport: Viewport = {
  width: "device-width",
  initialScale: 1,
  colorScheme: "light dark",
  themeColor: [
    { media: "(prefers-color-scheme: light)", color: "#f8f6f2" },
    { media: "(prefers-color-scheme: dark)", color: "#1a1815" },
  ],
};

export default function RootLayout({ children }: { readonly children: ReactNode }) {
  return (
    <html lang="en">
      <body>
        <ShellNav />
        {children}
      </body>
    </html>
  );
}
