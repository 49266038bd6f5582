/** Every link of the web client is built here. */

function withQuery(path: string, query: Record<string, string | undefined>): string {
  const search = new URLSearchParams();
  for (const [name, value] of Object.entries(query)) {
    if (value !== undefined && value !== "") search.set(name, value);
  }
  const text = search.toString();
  return text === "" ? path : `${path}?${text}`;
}

interface PlanFilled {
  on?: string | undefined;
  chart?: string | undefined;
  tooth?: string | undefined;
  technique?: string | undefined;
  /** The sealing record whose restoration is to be bonded. */
  seal?: string | undefined;
  template?: string | undefined;
}

interface ShelfFilter {
  location?: string | undefined;
  product?: string | undefined;
  lot?: string | undefined;
  state?: string | undefined;
}

/** The patterns that `routes.tsx` matches; the functions below fill them. */
export const patterns = {
  today: "/",
  trays: "/trays",
  planTray: "/trays/plan",
  importTrays: "/trays/import",
  templates: "/trays/templates",
  newTemplate: "/trays/templates/new",
  template: "/trays/templates/:templateId",
  tray: "/trays/:trayId",
  chairside: "/trays/:trayId/chairside",
  changeVisit: "/trays/:trayId/change",
  receive: "/receive",
  delivery: "/receive/:deliveryId",
  shelf: "/shelf",
  container: "/shelf/:containerId",
  records: "/records",
  waiting: "/records/waiting",
  record: "/records/:recordId",
  amendRecord: "/records/:recordId/amend",
  compareRecord: "/records/:recordId/versions",
  withdrawals: "/withdrawals",
  withdrawal: "/withdrawals/:withdrawalId",
  catalogue: "/catalogue",
  newProduct: "/catalogue/new",
  systems: "/catalogue/systems",
  techniques: "/catalogue/techniques",
  technique: "/catalogue/techniques/:techniqueId",
  editTechnique: "/catalogue/techniques/:techniqueId/edit",
  product: "/catalogue/:productId",
  practice: "/practice",
  practicePart: "/practice/:part",
  light: "/practice/lights/:lightId",
  signIn: "/sign-in",
  setUp: "/set-up",
} as const;

export const paths = {
  today: () => patterns.today,
  trays: (filter: { on?: string; chart?: string } = {}) => withQuery(patterns.trays, filter),
  planTray: (filled: PlanFilled = {}) => withQuery(patterns.planTray, { ...filled }),
  importTrays: () => patterns.importTrays,
  templates: () => patterns.templates,
  newTemplate: (from: { tray?: string } = {}) => withQuery(patterns.newTemplate, from),
  template: (templateId: string) => `/trays/templates/${templateId}`,
  tray: (trayId: string) => `/trays/${trayId}`,
  changeVisit: (trayId: string) => `/trays/${trayId}/change`,
  chairside: (trayId: string) => `/trays/${trayId}/chairside`,
  /** The same page, asking at once for what was written on paper. */
  lateEntry: (trayId: string) => `/trays/${trayId}/chairside?late=1`,
  receive: () => patterns.receive,
  delivery: (deliveryId: string) => `/receive/${deliveryId}`,
  shelf: (filter: ShelfFilter = {}) => withQuery(patterns.shelf, { ...filter }),
  container: (containerId: string) => `/shelf/${containerId}`,
  records: (filter: { chart?: string; tooth?: string; lot?: string; on?: string } = {}) =>
    withQuery(patterns.records, filter),
  waiting: (filter: { list?: string; chart?: string } = {}) => withQuery(patterns.waiting, filter),
  record: (recordId: string) => `/records/${recordId}`,
  amendRecord: (recordId: string) => `/records/${recordId}/amend`,
  compareRecord: (recordId: string) => `/records/${recordId}/versions`,
  withdrawals: (trace: { lot?: string; container?: string; identifier?: string } = {}) =>
    withQuery(patterns.withdrawals, trace),
  withdrawal: (withdrawalId: string) => `/withdrawals/${withdrawalId}`,
  catalogue: (filter: { kind?: string; q?: string } = {}) => withQuery(patterns.catalogue, filter),
  newProduct: (identifier?: { scheme: string; value: string }) =>
    withQuery(patterns.newProduct, { scheme: identifier?.scheme, identifier: identifier?.value }),
  systems: () => patterns.systems,
  techniques: () => patterns.techniques,
  technique: (techniqueId: string) => `/catalogue/techniques/${techniqueId}`,
  editTechnique: (techniqueId: string, as: "copy" | "version") =>
    withQuery(`/catalogue/techniques/${techniqueId}/edit`, { as }),
  product: (productId: string) => `/catalogue/${productId}`,
  practice: () => patterns.practice,
  practicePart: (part: string) => `/practice/${part}`,
  light: (lightId: string) => `/practice/lights/${lightId}`,
  scanner: () => "/practice/scanner",
  signIn: (next?: string) => withQuery(patterns.signIn, { next }),
  setUp: () => patterns.setUp,
};

/** Where to go after signing in: only to a page of our own, never to another address. */
export function readNext(search: string): string {
  const next = new URLSearchParams(search).get("next") ?? "";
  return /^\/(?![/\\])/.test(next) ? next : patterns.today;
}
