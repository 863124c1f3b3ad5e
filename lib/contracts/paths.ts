/** Every address of the product, in one place. */
export const paths = {
  home: "/",
  signIn: "/sign-in",
  forgotten: "/forgotten",
  reset: (token: string) => `/reset/${token}`,
  invitation: (token: string) => `/invitation/${token}`,
  profile: "/profile",
  /** Read by calendar programs, without signing in. */
  feed: (secret: string) => `/feeds/${secret}/calendar.ics`,
  notices: "/notices",
  /** Where one chooses what is mailed; every mail names it. */
  mailChoices: "/profile#mail",
  /** What was mailed, where mail is written to a folder. */
  mails: "/mail",
  castings: "/castings",
  newCasting: "/castings/new",
  casting: (castingId: string) => `/castings/${castingId}`,
  /** With changes: values to put over what is saved, unsaved until the form is sent; see `taken-fields.ts`. */
  castingWith: (castingId: string, changes: Readonly<Record<string, string>>) => `/castings/${castingId}?${new URLSearchParams(changes).toString()}`,
  castingWhy: (castingId: string, kilnId?: string) => (kilnId === undefined ? `/castings/${castingId}/why` : `/castings/${castingId}/why?kiln=${kilnId}`),
  firingWhy: (firingId: string, castingId?: string) => `/firings/${firingId}/why${castingId === undefined ? "" : `?casting=${castingId}`}`,
  benchSheet: (castingId: string) => `/castings/${castingId}/bench-sheet`,
  coldWork: (castingId: string, choice?: { readonly surface: string; readonly worked: string }) =>
    `/castings/${castingId}/cold-work${choice === undefined ? "" : `?surface=${choice.surface}&worked=${choice.worked}`}`,
  findTime: (castingId: string) => `/castings/${castingId}/find-time`,
  /** Where a mesh file is sent, and where is asked how far it is and for its drawing. */
  meshes: "/api/meshes",
  mesh: (meshId: string) => `/api/meshes/${meshId}`,
  meshDrawing: (meshId: string) => `/api/meshes/${meshId}/drawing`,
  firing: (firingId: string) => `/firings/${firingId}`,
  shareFiring: (firingId: string, castingId: string) => `/firings/${firingId}/share/${castingId}`,
  joining: (joiningId: string) => `/joinings/${joiningId}`,
  moveRun: (firingId: string) => `/firings/${firingId}/move`,
  planAnew: (firingId: string) => `/firings/${firingId}/plan-anew`,
  checkSheet: (firingId: string) => `/firings/${firingId}/check-sheet`,
  calendar: "/calendar",
  wall: "/wall",
  clashes: "/clashes",
  waysOut: "/clashes/ways-out",
  /** One that was accepted, for the managers and for those whose runs it moved. */
  settlement: (settlementId: string) => `/settlements/${settlementId}`,
  settlementDone: (settlementId: string) => `/settlements/${settlementId}?done=yes`,
  asks: "/asks",
  lifts: (day?: string) => (day === undefined ? "/lifts" : `/lifts?day=${day}`),
  people: "/workshop/people",
  equipment: "/workshop/equipment",
  oneEquipment: (equipmentId: string) => `/workshop/equipment/${equipmentId}`,
  hours: "/workshop/hours",
  power: "/workshop/power",
  record: "/workshop/record",
  openApi: "/api/v1/openapi.json",
} as const;
