import { Module, type DynamicModule } from "@nestjs/common";
import { TypeOrmModule } from "@nestjs/typeorm";
import type { DataSource, DataSourceOptions } from "typeorm";
import { AuditController } from "./audit/audit.controller.ts";
import { AuditService } from "./audit/audit.service.ts";
import { CatalogueController } from "./catalogue/catalogue.controller.ts";
import { TechniquesService } from "./catalogue/techniques.service.ts";
import { CatalogueService } from "./catalogue/catalogue.service.ts";
import { ActorGuard } from "./http/actor.guard.ts";
import { Clock } from "./http/clock.ts";
import { LabelsController } from "./labels/labels.controller.ts";
import { LabelsService } from "./labels/labels.service.ts";
import { SheetsService } from "./labels/sheets.service.ts";
import { KeepingController } from "./keeping/keeping.controller.ts";
import { KeepingService } from "./keeping/keeping.service.ts";
import { LightsController } from "./lights/lights.controller.ts";
import { LightsService } from "./lights/lights.service.ts";
import { LiveController } from "./live/live.controller.ts";
import { LiveService } from "./live/live.service.ts";
import { OverviewController } from "./overview/overview.controller.ts";
import { OverviewService } from "./overview/overview.service.ts";
import { PeopleController } from "./people/people.controller.ts";
import { PeopleService } from "./people/people.service.ts";
import { SessionController } from "./people/session.controller.ts";
import { SessionService } from "./people/session.service.ts";
import { PracticeController } from "./practice/practice.controller.ts";
import { CheckSettingsService } from "./practice/check-settings.service.ts";
import { PracticeService } from "./practice/practice.service.ts";
import { SetUpCode } from "./practice/set-up-code.ts";
import { PrintersController } from "./printers/printers.controller.ts";
import { PrintersService } from "./printers/printers.service.ts";
import { ReceivingController } from "./receiving/receiving.controller.ts";
import { ReceivingService } from "./receiving/receiving.service.ts";
import { RecordsController } from "./records/records.controller.ts";
import { AmendmentsService } from "./records/amendments.service.ts";
import { RecordPapersService } from "./records/record-papers.service.ts";
import { RecordsService } from "./records/records.service.ts";
import { SecureSide } from "./tls/secure-side.ts";
import { StockController } from "./stock/stock.controller.ts";
import { StockService } from "./stock/stock.service.ts";
import { TraysController } from "./trays/trays.controller.ts";
import { DowntimeService } from "./trays/downtime.service.ts";
import { AppointmentsService } from "./trays/appointments.service.ts";
import { TemplatesService } from "./trays/templates.service.ts";
import { TraysService } from "./trays/trays.service.ts";
import { WaitingController } from "./waiting/waiting.controller.ts";
import { WaitingService } from "./waiting/waiting.service.ts";
import { TraceService } from "./withdrawals/trace.service.ts";
import { WithdrawalsController } from "./withdrawals/withdrawals.controller.ts";
import { WithdrawalsService } from "./withdrawals/withdrawals.service.ts";

interface Given {
  db: DataSource;
  clock: Clock;
  setUpCode: string | null;
  secure: SecureSide;
}

/** The whole server in one list. */
@Module({})
export class AppModule {
  static with(given: Given): DynamicModule {
    return {
      module: AppModule,
      imports: [
        // The connection is made, migrated and ended by whoever starts the server.
        TypeOrmModule.forRootAsync({
          useFactory: () => given.db.options as DataSourceOptions,
          dataSourceFactory: async () => given.db,
        }),
      ],
      controllers: [
        PracticeController,
        SessionController,
        PeopleController,
        CatalogueController,
        StockController,
        ReceivingController,
        TraysController,
        RecordsController,
        WaitingController,
        WithdrawalsController,
        LabelsController,
        PrintersController,
        KeepingController,
        LightsController,
        LiveController,
        OverviewController,
        AuditController,
      ],
      providers: [
        { provide: Clock, useValue: given.clock },
        { provide: SecureSide, useValue: given.secure },
        { provide: SetUpCode, useValue: new SetUpCode(given.setUpCode) },
        ActorGuard,
        PracticeService,
        CheckSettingsService,
        SessionService,
        PeopleService,
        CatalogueService,
        TechniquesService,
        StockService,
        ReceivingService,
        TraysService,
        AppointmentsService,
        DowntimeService,
        TemplatesService,
        RecordsService,
        RecordPapersService,
        AmendmentsService,
        WaitingService,
        TraceService,
        WithdrawalsService,
        LabelsService,
        SheetsService,
        PrintersService,
        KeepingService,
        LightsService,
        LiveService,
        OverviewService,
        AuditService,
      ],
    };
  }
}
