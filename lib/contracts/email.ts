import { z } from "zod";

/** An address as people type it: any case, spaces around it. Kept in lower case, as the database asks. */
export const emailSchema = z
  .string()
  .trim()
  .toLowerCase()
  .max(254, "An e-mail address has at most 254 characters.")
  .pipe(z.email("This is not an e-mail address; it looks like name@place.example."));
