using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Shimwright.Storage.InStep;

#nullable disable

namespace Shimwright.Storage.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class Steps : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "changes",
                columns: table => new
                {
                    Kind = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    Key = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    At = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_changes", x => new { x.Kind, x.Key });
                });

            migrationBuilder.CreateTable(
                name: "heard_deeds",
                columns: table => new
                {
                    Deed = table.Column<Guid>(type: "uuid", nullable: false),
                    Pocket = table.Column<Guid>(type: "uuid", nullable: false),
                    Device = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    SaidAt = table.Column<long>(type: "bigint", nullable: false),
                    HeardAt = table.Column<long>(type: "bigint", nullable: false),
                    Answer = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_heard_deeds", x => x.Deed);
                });

            migrationBuilder.CreateTable(
                name: "steps",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false),
                    Bench = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Last = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_steps", x => x.Id);
                });

            migrationBuilder.CreateIndex(
                name: "IX_changes_At",
                table: "changes",
                column: "At");

            migrationBuilder.Sql(StepTriggers.OnPostgres());
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql(StepTriggers.Undo(isSqlite: false));

            migrationBuilder.DropTable(
                name: "changes");

            migrationBuilder.DropTable(
                name: "heard_deeds");

            migrationBuilder.DropTable(
                name: "steps");
        }
    }
}
