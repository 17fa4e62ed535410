using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Shimwright.Storage.Migrations.Sqlite
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
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "Sum",
                table: "settings",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "Sum",
                table: "jobs",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "Sum",
                table: "feels",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "Sum",
                table: "facts",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "Sum",
                table: "engines",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "Sum",
                table: "cards",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "removed_jobs",
                columns: table => new
                {
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    At = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_removed_jobs", x => x.JobId);
                });

            // A row from before checksums is given one, and nothing else of it changes; what belongs to a job that was removed for good may go.
            // A later migration that rebuilds a table loses these, and has to make them again.
            migrationBuilder.Sql("""
                DROP TRIGGER facts_no_update;
                """);
            migrationBuilder.Sql("""
                DROP TRIGGER facts_no_delete;
                """);
            migrationBuilder.Sql("""
                DROP TRIGGER feels_no_update;
                """);
            migrationBuilder.Sql("""
                DROP TRIGGER shim_moves_no_update;
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER facts_no_update BEFORE UPDATE ON facts WHEN NOT (OLD."Sum" IS NULL AND NEW."JobId" IS OLD."JobId" AND NEW."Number" IS OLD."Number" AND NEW."Action" IS OLD."Action" AND NEW."Device" IS OLD."Device" AND NEW."At" IS OLD."At" AND NEW."Fact" IS OLD."Fact") BEGIN SELECT RAISE(ABORT, 'Facts are added, never changed.'); END;
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER facts_no_delete BEFORE DELETE ON facts WHEN NOT (OLD."JobId" IN (SELECT "JobId" FROM removed_jobs)) BEGIN SELECT RAISE(ABORT, 'Facts are added, never taken away.'); END;
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER feels_no_update BEFORE UPDATE ON feels WHEN NOT (OLD."Sum" IS NULL AND NEW."PersonId" IS OLD."PersonId" AND NEW."Number" IS OLD."Number" AND NEW."Action" IS OLD."Action" AND NEW."Device" IS OLD."Device" AND NEW."At" IS OLD."At" AND NEW."Entry" IS OLD."Entry") BEGIN SELECT RAISE(ABORT, 'Entries are added, never changed.'); END;
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER shim_moves_no_update BEFORE UPDATE ON shim_moves WHEN NOT (NEW."Number" IS OLD."Number" AND NEW."Diameter" IS OLD."Diameter" AND NEW."Thickness" IS OLD."Thickness" AND NEW."By" IS OLD."By" AND NEW."Change" IS OLD."Change" AND NEW."Reason" IS OLD."Reason" AND NEW."Undoes" IS OLD."Undoes" AND NEW."Place" IS OLD."Place" AND NEW."Price" IS OLD."Price" AND NEW."Action" IS OLD."Action" AND NEW."Device" IS OLD."Device" AND NEW."At" IS OLD."At" AND ((NEW."JobId" IS OLD."JobId" AND OLD."Sum" IS NULL) OR (NEW."JobId" IS NULL AND OLD."JobId" IN (SELECT "JobId" FROM removed_jobs)))) BEGIN SELECT RAISE(ABORT, 'Entries of the drawer are added, never changed.'); END;
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("""
                DROP TRIGGER facts_no_update;
                """);
            migrationBuilder.Sql("""
                DROP TRIGGER facts_no_delete;
                """);
            migrationBuilder.Sql("""
                DROP TRIGGER feels_no_update;
                """);
            migrationBuilder.Sql("""
                DROP TRIGGER shim_moves_no_update;
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER facts_no_update BEFORE UPDATE ON facts BEGIN SELECT RAISE(ABORT, 'Facts are added, never changed.'); END;
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER facts_no_delete BEFORE DELETE ON facts BEGIN SELECT RAISE(ABORT, 'Facts are added, never taken away.'); END;
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER feels_no_update BEFORE UPDATE ON feels BEGIN SELECT RAISE(ABORT, 'Entries are added, never changed.'); END;
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER shim_moves_no_update BEFORE UPDATE ON shim_moves BEGIN SELECT RAISE(ABORT, 'Entries of the drawer are added, never changed.'); END;
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
