using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Shimwright.Storage.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class Drawer : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "drawer",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false),
                    Last = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_drawer", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "shim_moves",
                columns: table => new
                {
                    Number = table.Column<int>(type: "integer", nullable: false),
                    Diameter = table.Column<int>(type: "integer", nullable: false),
                    Thickness = table.Column<int>(type: "integer", nullable: false),
                    By = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    Change = table.Column<int>(type: "integer", nullable: false),
                    Reason = table.Column<int>(type: "integer", nullable: false),
                    JobId = table.Column<Guid>(type: "uuid", nullable: true),
                    Undoes = table.Column<int>(type: "integer", nullable: true),
                    Place = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true),
                    Price = table.Column<double>(type: "double precision", nullable: true),
                    Action = table.Column<Guid>(type: "uuid", nullable: false),
                    Device = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    At = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_shim_moves", x => x.Number);
                    table.ForeignKey(
                        name: "FK_shim_moves_jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_shim_moves_shim_moves_Undoes",
                        column: x => x.Undoes,
                        principalTable: "shim_moves",
                        principalColumn: "Number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "shim_promises",
                columns: table => new
                {
                    JobId = table.Column<Guid>(type: "uuid", nullable: false),
                    Diameter = table.Column<int>(type: "integer", nullable: false),
                    Thickness = table.Column<int>(type: "integer", nullable: false),
                    By = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    Count = table.Column<int>(type: "integer", nullable: false),
                    Fitted = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_shim_promises", x => new { x.JobId, x.Diameter, x.Thickness, x.By });
                    table.ForeignKey(
                        name: "FK_shim_promises_jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.InsertData(
                table: "drawer",
                columns: new[] { "Id", "Last" },
                values: new object[] { 1, 0 });

            migrationBuilder.CreateIndex(
                name: "IX_shim_moves_Action",
                table: "shim_moves",
                column: "Action");

            migrationBuilder.CreateIndex(
                name: "IX_shim_moves_Diameter_Thickness_By",
                table: "shim_moves",
                columns: new[] { "Diameter", "Thickness", "By" });

            migrationBuilder.CreateIndex(
                name: "IX_shim_moves_JobId",
                table: "shim_moves",
                column: "JobId");

            migrationBuilder.CreateIndex(
                name: "IX_shim_moves_Undoes",
                table: "shim_moves",
                column: "Undoes",
                unique: true);

            migrationBuilder.Sql("""
                CREATE FUNCTION shim_moves_stay() RETURNS trigger LANGUAGE plpgsql AS $$
                BEGIN
                    RAISE EXCEPTION 'Entries of the drawer are added, never changed or taken away.';
                END $$;
                CREATE TRIGGER shim_moves_no_change BEFORE UPDATE OR DELETE ON shim_moves FOR EACH ROW EXECUTE FUNCTION shim_moves_stay();
                CREATE TRIGGER shim_moves_no_truncate BEFORE TRUNCATE ON shim_moves FOR EACH STATEMENT EXECUTE FUNCTION shim_moves_stay();
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("DROP TRIGGER shim_moves_no_change ON shim_moves; DROP TRIGGER shim_moves_no_truncate ON shim_moves; DROP FUNCTION shim_moves_stay();");

            migrationBuilder.DropTable(
                name: "drawer");

            migrationBuilder.DropTable(
                name: "shim_moves");

            migrationBuilder.DropTable(
                name: "shim_promises");
        }
    }
}
