using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Shimwright.Storage.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class FactsStay : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AlterColumn<string>(
                name: "Search",
                table: "engines",
                type: "character varying(200)",
                maxLength: 200,
                nullable: false,
                collation: "C",
                oldClrType: typeof(string),
                oldType: "character varying(200)",
                oldMaxLength: 200);

            migrationBuilder.Sql("""
                CREATE FUNCTION facts_stay() RETURNS trigger LANGUAGE plpgsql AS $$
                BEGIN
                    RAISE EXCEPTION 'Facts are added, never changed or taken away.';
                END $$;
                CREATE TRIGGER facts_no_change BEFORE UPDATE OR DELETE ON facts FOR EACH ROW EXECUTE FUNCTION facts_stay();
                CREATE TRIGGER facts_no_truncate BEFORE TRUNCATE ON facts FOR EACH STATEMENT EXECUTE FUNCTION facts_stay();
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("DROP TRIGGER facts_no_change ON facts; DROP TRIGGER facts_no_truncate ON facts; DROP FUNCTION facts_stay();");

            migrationBuilder.AlterColumn<string>(
                name: "Search",
                table: "engines",
                type: "character varying(200)",
                maxLength: 200,
                nullable: false,
                oldClrType: typeof(string),
                oldType: "character varying(200)",
                oldMaxLength: 200,
                oldCollation: "C");
        }
    }
}
