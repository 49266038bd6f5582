/** Good requests of the templates of trays; a part of `every-operation.ts`. */
import type { BodyOf } from "#contracts/operations";
import type { Maker } from "../helpers/make.ts";
import type { Preparing } from "./every-operation.ts";

async function templateInput(make: Maker): Promise<BodyOf<"addTemplate">> {
  const product = await make.usualProduct("bonding-cement");
  return {
    name: make.name("Template"),
    techniqueId: make.techniques["bond-restoration"]!,
    locationId: make.places.operatory,
    mode: "etch-and-rinse",
    provisional: "resin",
    undercut: true,
    products: [{ stepKey: "cement", productIds: [product.id] }],
  };
}

/** A template that is kept; also what a plan names it by. */
export const addedTemplate = async (make: Maker): Promise<{ templateId: string }> => {
  const body = await templateInput(make);
  return { templateId: (await make.practice.office.call("addTemplate", { body })).ok.id };
};

type Names = "listTemplates" | "addTemplate" | "changeTemplate" | "removeTemplate";
export const templateRequests: Pick<Preparing, Names> = {
  listTemplates: async () => ({}),
  addTemplate: async (make) => ({ body: await templateInput(make) }),
  changeTemplate: async (make) => ({
    params: await addedTemplate(make),
    body: await templateInput(make),
  }),
  removeTemplate: async (make) => ({ params: await addedTemplate(make) }),
};
