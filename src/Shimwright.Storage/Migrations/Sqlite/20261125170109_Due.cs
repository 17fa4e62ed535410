using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Shimwright.Storage.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class Due : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<Guid>(
                name: "FollowsId",
                table: "jobs",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "Past",
                table: "jobs",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<int>(
                name: "Changes",
                table: "engines",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<double>(
                name: "UsagePerWeek",
                table: "engines",
                type: "REAL",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "card_rates",
                columns: table => new
                {
                    CardId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<int>(type: "INTEGER", nullable: false),
                    IntakeMean = table.Column<double>(type: "REAL", nullable: true),
                    IntakeSpread = table.Column<double>(type: "REAL", nullable: true),
                    ExhaustMean = table.Column<double>(type: "REAL", nullable: true),
                    ExhaustSpread = table.Column<double>(type: "REAL", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_card_rates", x => x.CardId);
                    table.ForeignKey(
                        name: "FK_card_rates_cards_CardId",
                        column: x => x.CardId,
                        principalTable: "cards",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "forecasts",
                columns: table => new
                {
                    EngineId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Changes = table.Column<int>(type: "INTEGER", nullable: false),
                    CardVersion = table.Column<int>(type: "INTEGER", nullable: false),
                    RatesVersion = table.Column<int>(type: "INTEGER", nullable: false),
                    SettingsMark = table.Column<string>(type: "TEXT", nullable: false),
                    Checks = table.Column<int>(type: "INTEGER", nullable: false),
                    Clock = table.Column<double>(type: "REAL", nullable: false),
                    LastClock = table.Column<double>(type: "REAL", nullable: false),
                    LastAt = table.Column<long>(type: "INTEGER", nullable: false),
                    CheckBy = table.Column<double>(type: "REAL", nullable: true),
                    CountsKilometres = table.Column<bool>(type: "INTEGER", nullable: false),
                    PerWeek = table.Column<double>(type: "REAL", nullable: true),
                    Usage = table.Column<int>(type: "INTEGER", nullable: false),
                    DueAt = table.Column<long>(type: "INTEGER", nullable: true),
                    Risk = table.Column<double>(type: "REAL", nullable: false),
                    Curve = table.Column<string>(type: "TEXT", nullable: false),
                    IntakeEvidence = table.Column<string>(type: "TEXT", nullable: false),
                    ExhaustEvidence = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_forecasts", x => x.EngineId);
                    table.ForeignKey(
                        name: "FK_forecasts_engines_EngineId",
                        column: x => x.EngineId,
                        principalTable: "engines",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_forecasts_DueAt",
                table: "forecasts",
                column: "DueAt");

            // Engines with closed jobs have something to forecast from.
            migrationBuilder.Sql("UPDATE engines SET \"Changes\" = 1 WHERE \"Id\" IN (SELECT \"EngineId\" FROM jobs WHERE \"ClosedAt\" IS NOT NULL);");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "card_rates");

            migrationBuilder.DropTable(
                name: "forecasts");

            migrationBuilder.DropColumn(
                name: "FollowsId",
                table: "jobs");

            migrationBuilder.DropColumn(
                name: "Past",
                table: "jobs");

            migrationBuilder.DropColumn(
                name: "Changes",
                table: "engines");

            migrationBuilder.DropColumn(
                name: "UsagePerWeek",
                table: "engines");
        }
    }
}
