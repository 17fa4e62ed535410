using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Shimwright.Storage.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class Papers : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "Number",
                table: "jobs",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<string>(
                name: "Frame",
                table: "engines",
                type: "TEXT",
                maxLength: 100,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "Owner",
                table: "engines",
                type: "TEXT",
                maxLength: 100,
                nullable: false,
                defaultValue: "");

            migrationBuilder.CreateTable(
                name: "counts",
                columns: table => new
                {
                    Name = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    Last = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_counts", x => x.Name);
                });

            migrationBuilder.CreateTable(
                name: "pictures",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: true),
                    At = table.Column<long>(type: "INTEGER", nullable: false),
                    ContentType = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    Width = table.Column<int>(type: "INTEGER", nullable: false),
                    Height = table.Column<int>(type: "INTEGER", nullable: false),
                    Content = table.Column<byte[]>(type: "BLOB", nullable: false),
                    Thumb = table.Column<byte[]>(type: "BLOB", nullable: false),
                    Sum = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_pictures", x => x.Id);
                    table.ForeignKey(
                        name: "FK_pictures_jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.InsertData(
                table: "counts",
                columns: new[] { "Name", "Last" },
                values: new object[] { "jobs", 0 });

            // Jobs from before they were counted are counted in the order in which they were started.
            migrationBuilder.Sql("""
                UPDATE jobs SET "Number" = counted."Place" FROM (SELECT "Id", ROW_NUMBER() OVER (ORDER BY "StartedAt", "Id") AS "Place" FROM jobs) AS counted WHERE counted."Id" = jobs."Id";
                """);
            migrationBuilder.Sql("""
                UPDATE counts SET "Last" = (SELECT COUNT(*) FROM jobs) WHERE "Name" = 'jobs';
                """);

            migrationBuilder.CreateIndex(
                name: "IX_jobs_Number",
                table: "jobs",
                column: "Number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_pictures_JobId",
                table: "pictures",
                column: "JobId");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "counts");

            migrationBuilder.DropTable(
                name: "pictures");

            migrationBuilder.DropIndex(
                name: "IX_jobs_Number",
                table: "jobs");

            migrationBuilder.DropColumn(
                name: "Number",
                table: "jobs");

            migrationBuilder.DropColumn(
                name: "Frame",
                table: "engines");

            migrationBuilder.DropColumn(
                name: "Owner",
                table: "engines");
        }
    }
}
