import type { ReactNode } from "react";
import { WorkshopNav } from "./_components/workshop-nav";

export default function WorkshopLayout({ children }: { readonly children: ReactNode }) {
  return (
    <>
      <WorkshopNav />
      {children}
    </>
  );
}
