import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { CatalogueService } from "./catalogue.service.ts";
import { TechniquesService } from "./techniques.service.ts";

@Controller()
export class CatalogueController {
  constructor(
    @Inject(CatalogueService) private readonly catalogue: CatalogueService,
    @Inject(TechniquesService) private readonly techniques: TechniquesService,
  ) {}

  @Operation("listProducts")
  listProducts(@Checked() call: Call<"listProducts">) {
    return this.catalogue.listProducts(call);
  }

  @Operation("getProduct")
  getProduct(@Checked() call: Call<"getProduct">) {
    return this.catalogue.getProduct(call);
  }

  @Operation("addProduct")
  addProduct(@Checked() call: Call<"addProduct">) {
    return this.catalogue.addProduct(call);
  }

  @Operation("changeProduct")
  changeProduct(@Checked() call: Call<"changeProduct">) {
    return this.catalogue.changeProduct(call);
  }

  @Operation("confirmProduct")
  confirmProduct(@Checked() call: Call<"confirmProduct">) {
    return this.catalogue.confirmProduct(call);
  }

  @Operation("addIdentifier")
  addIdentifier(@Checked() call: Call<"addIdentifier">) {
    return this.catalogue.addIdentifier(call);
  }

  @Operation("listSystems")
  listSystems(@Checked() call: Call<"listSystems">) {
    return this.catalogue.listSystems(call);
  }

  @Operation("addSystem")
  addSystem(@Checked() call: Call<"addSystem">) {
    return this.catalogue.addSystem(call);
  }

  @Operation("listTechniques")
  listTechniques(@Checked() call: Call<"listTechniques">) {
    return this.catalogue.listTechniques(call);
  }

  @Operation("getTechnique")
  getTechnique(@Checked() call: Call<"getTechnique">) {
    return this.techniques.getTechnique(call);
  }

  @Operation("addTechnique")
  addTechnique(@Checked() call: Call<"addTechnique">) {
    return this.techniques.addTechnique(call);
  }

  @Operation("changeTechnique")
  changeTechnique(@Checked() call: Call<"changeTechnique">) {
    return this.techniques.changeTechnique(call);
  }

  @Operation("retireTechnique")
  retireTechnique(@Checked() call: Call<"retireTechnique">) {
    return this.techniques.retireTechnique(call);
  }

  @Operation("confirmTechnique")
  confirmTechnique(@Checked() call: Call<"confirmTechnique">) {
    return this.techniques.confirmTechnique(call);
  }
}
