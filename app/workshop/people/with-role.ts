/** The roles with one ticked or unticked; ticking twice changes nothing. */
export function withRole(roles: readonly string[], role: string, on: boolean): readonly string[] {
  const others = roles.filter((one) => one !== role);
  return on ? [...others, role] : others;
}
