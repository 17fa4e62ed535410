using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Shimwright.Storage.Migrations.Postgres
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
                    PersonId = table.Column<Guid>(type: "uuid", nullable: false),
                    Number = table.Column<int>(type: "integer", nullable: false),
                    Action = table.Column<Guid>(type: "uuid", nullable: false),
                    Device = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    At = table.Column<long>(type: "bigint", nullable: false),
                    Entry = table.Column<string>(type: "text", nullable: false)
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

            migrationBuilder.Sql("""
                CREATE FUNCTION feels_stay() RETURNS trigger LANGUAGE plpgsql AS $$
                BEGIN
                    RAISE EXCEPTION 'Entries are added, never changed or taken away.';
                END $$;
                CREATE TRIGGER feels_no_change BEFORE UPDATE OR DELETE ON feels FOR EACH ROW EXECUTE FUNCTION feels_stay();
                CREATE TRIGGER feels_no_truncate BEFORE TRUNCATE ON feels FOR EACH STATEMENT EXECUTE FUNCTION feels_stay();
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("DROP TRIGGER feels_no_change ON feels; DROP TRIGGER feels_no_truncate ON feels; DROP FUNCTION feels_stay();");
            migrationBuilder.DropTable(
                name: "feels");
        }
    }
}
