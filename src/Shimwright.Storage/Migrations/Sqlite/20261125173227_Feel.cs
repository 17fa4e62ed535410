using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Shimwright.Storage.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class Feel : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "feels",
                columns: table => new
                {
                    PersonId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    Action = table.Column<Guid>(type: "TEXT", nullable: false),
                    Device = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    At = table.Column<long>(type: "INTEGER", nullable: false),
                    Entry = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_feels", x => new { x.PersonId, x.Number });
                });

            migrationBuilder.CreateIndex(
                name: "IX_feels_PersonId_Action",
                table: "feels",
                columns: new[] { "PersonId", "Action" },
                unique: true);

            // A later migration that rebuilds the table loses these, and has to make them again.
            migrationBuilder.Sql("CREATE TRIGGER feels_no_update BEFORE UPDATE ON feels BEGIN SELECT RAISE(ABORT, 'Entries are added, never changed.'); END;");
            migrationBuilder.Sql("CREATE TRIGGER feels_no_delete BEFORE DELETE ON feels BEGIN SELECT RAISE(ABORT, 'Entries are added, never taken away.'); END;");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("DROP TRIGGER feels_no_update;");
            migrationBuilder.Sql("DROP TRIGGER feels_no_delete;");
            migrationBuilder.DropTable(
                name: "feels");
        }
    }
}
