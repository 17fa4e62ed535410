using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Shimwright.Storage.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class Sums : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<long>(
                name: "Sum",
                table: "shim_moves",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "Sum",
                table: "settings",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "Sum",
                table: "jobs",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "Sum",
                table: "feels",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "Sum",
                table: "facts",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "Sum",
                table: "engines",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "Sum",
                table: "cards",
                type: "bigint",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "removed_jobs",
                columns: table => new
                {
                    JobId = table.Column<Guid>(type: "uuid", nullable: false),
                    At = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_removed_jobs", x => x.JobId);
                });

            // A row from before checksums is given one, and nothing else of it changes; what belongs to a job that was removed for good may go.
            // A later migration that rebuilds a table loses these, and has to make them again.
            migrationBuilder.Sql("""
                CREATE OR REPLACE FUNCTION facts_stay() RETURNS trigger LANGUAGE plpgsql AS $$
                BEGIN
                    IF TG_OP = 'UPDATE' THEN
                        IF OLD."Sum" IS NULL AND NEW."JobId" IS NOT DISTINCT FROM OLD."JobId" AND NEW."Number" IS NOT DISTINCT FROM OLD."Number" AND NEW."Action" IS NOT DISTINCT FROM OLD."Action" AND NEW."Device" IS NOT DISTINCT FROM OLD."Device" AND NEW."At" IS NOT DISTINCT FROM OLD."At" AND NEW."Fact" IS NOT DISTINCT FROM OLD."Fact" THEN
                            RETURN NEW;
                        END IF;
                    END IF;
                    IF TG_OP = 'DELETE' THEN
                        IF EXISTS (SELECT 1 FROM removed_jobs r WHERE r."JobId" = OLD."JobId") THEN
                            RETURN OLD;
                        END IF;
                    END IF;
                    RAISE EXCEPTION 'Facts are added, never changed or taken away.';
                END $$;
                """);
            migrationBuilder.Sql("""
                CREATE OR REPLACE FUNCTION feels_stay() RETURNS trigger LANGUAGE plpgsql AS $$
                BEGIN
                    IF TG_OP = 'UPDATE' THEN
                        IF OLD."Sum" IS NULL AND NEW."PersonId" IS NOT DISTINCT FROM OLD."PersonId" AND NEW."Number" IS NOT DISTINCT FROM OLD."Number" AND NEW."Action" IS NOT DISTINCT FROM OLD."Action" AND NEW."Device" IS NOT DISTINCT FROM OLD."Device" AND NEW."At" IS NOT DISTINCT FROM OLD."At" AND NEW."Entry" IS NOT DISTINCT FROM OLD."Entry" THEN
                            RETURN NEW;
                        END IF;
                    END IF;
                    RAISE EXCEPTION 'Entries are added, never changed or taken away.';
                END $$;
                """);
            migrationBuilder.Sql("""
                CREATE OR REPLACE FUNCTION shim_moves_stay() RETURNS trigger LANGUAGE plpgsql AS $$
                BEGIN
                    IF TG_OP = 'UPDATE' THEN
                        IF NEW."Number" IS NOT DISTINCT FROM OLD."Number" AND NEW."Diameter" IS NOT DISTINCT FROM OLD."Diameter" AND NEW."Thickness" IS NOT DISTINCT FROM OLD."Thickness" AND NEW."By" IS NOT DISTINCT FROM OLD."By" AND NEW."Change" IS NOT DISTINCT FROM OLD."Change" AND NEW."Reason" IS NOT DISTINCT FROM OLD."Reason" AND NEW."Undoes" IS NOT DISTINCT FROM OLD."Undoes" AND NEW."Place" IS NOT DISTINCT FROM OLD."Place" AND NEW."Price" IS NOT DISTINCT FROM OLD."Price" AND NEW."Action" IS NOT DISTINCT FROM OLD."Action" AND NEW."Device" IS NOT DISTINCT FROM OLD."Device" AND NEW."At" IS NOT DISTINCT FROM OLD."At" AND ((NEW."JobId" IS NOT DISTINCT FROM OLD."JobId" AND OLD."Sum" IS NULL) OR (NEW."JobId" IS NULL AND EXISTS (SELECT 1 FROM removed_jobs r WHERE r."JobId" = OLD."JobId"))) THEN
                            RETURN NEW;
                        END IF;
                    END IF;
                    RAISE EXCEPTION 'Entries of the drawer are added, never changed or taken away.';
                END $$;
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("""
                CREATE OR REPLACE FUNCTION facts_stay() RETURNS trigger LANGUAGE plpgsql AS $$
                BEGIN
                    RAISE EXCEPTION 'Facts are added, never changed or taken away.';
                END $$;
                """);
            migrationBuilder.Sql("""
                CREATE OR REPLACE FUNCTION feels_stay() RETURNS trigger LANGUAGE plpgsql AS $$
                BEGIN
                    RAISE EXCEPTION 'Entries are added, never changed or taken away.';
                END $$;
                """);
            migrationBuilder.Sql("""
                CREATE OR REPLACE FUNCTION shim_moves_stay() RETURNS trigger LANGUAGE plpgsql AS $$
                BEGIN
                    RAISE EXCEPTION 'Entries of the drawer are added, never changed or taken away.';
                END $$;
                """);

            migrationBuilder.DropTable(
                name: "removed_jobs");

            migrationBuilder.DropColumn(
                name: "Sum",
                table: "shim_moves");

            migrationBuilder.DropColumn(
                name: "Sum",
                table: "settings");

            migrationBuilder.DropColumn(
                name: "Sum",
                table: "jobs");

            migrationBuilder.DropColumn(
                name: "Sum",
                table: "feels");

            migrationBuilder.DropColumn(
                name: "Sum",
                table: "facts");

            migrationBuilder.DropColumn(
                name: "Sum",
                table: "engines");

            migrationBuilder.DropColumn(
                name: "Sum",
                table: "cards");
        }
    }
}
