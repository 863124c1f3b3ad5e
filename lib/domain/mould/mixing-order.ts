/**
 * How a bucket is mixed, in order. Powder into water, slaking of 2 minutes (another account says 5) and
 * 15 to 20 minutes to thickening are published mould practice; the rest is common practice, no source.
 */
export const MIXING_ORDER = [
  "Weigh plaster and silica dry into one lidded bucket and turn it over with the lid on.",
  "Weigh the water, cool or lukewarm, into the mixing bucket.",
  "Sift the powder into the water, never water onto powder, until it stands just under the surface.",
  "Let it slake 2 minutes without stirring, then mix by a slow paddle below the surface until it is even.",
  "Lay it on at once: it thickens 15 to 20 minutes after mixing. What has begun to set is thrown away, never thinned with water.",
  "Score each coat while it is soft. Lay the next on when it is firm and still damp, about 15 to 30 minutes later.",
] as const;

/** What the dust and the heat of setting can do; stands beside every list of batches. */
export const MIXING_CAUTIONS = [
  "Silica dust scars lungs. Wear the fitted respirator your workshop prescribes (P3, N100 or better is usual) and work at extraction while powder is open, sifted or mixed.",
  "Clean wet or with an H-class vacuum. Never sweep or blow dry powder; wash hands, tools and floor before it dries.",
  "Setting plaster reaches about 60 °C and burns: never leave hands or any part of the body in it. Gloves on, eye wash to hand.",
  "Local rules on silica, on ventilation and on waste water come first.",
] as const;
