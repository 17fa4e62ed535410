using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Shimwright.Storage.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class FactsStay : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            // A later migration that rebuilds the table loses these, and has to make them again.
            migrationBuilder.Sql("CREATE TRIGGER facts_no_update BEFORE UPDATE ON facts BEGIN SELECT RAISE(ABORT, 'Facts are added, never changed.'); END;");
            migrationBuilder.Sql("CREATE TRIGGER facts_no_delete BEFORE DELETE ON facts BEGIN SELECT RAISE(ABORT, 'Facts are added, never taken away.'); END;");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("DROP TRIGGER facts_no_update;");
            migrationBuilder.Sql("DROP TRIGGER facts_no_delete;");
        }
    }
}
