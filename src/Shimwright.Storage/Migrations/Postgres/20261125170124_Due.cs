using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Shimwright.Storage.Migrations.Postgres
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
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "Past",
                table: "jobs",
                type: "integer",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<int>(
                name: "Changes",
                table: "engines",
                type: "integer",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<double>(
                name: "UsagePerWeek",
                table: "engines",
                type: "double precision",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "card_rates",
                columns: table => new
                {
                    CardId = table.Column<Guid>(type: "uuid", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false),
                    IntakeMean = table.Column<double>(type: "double precision", nullable: true),
                    IntakeSpread = table.Column<double>(type: "double precision", nullable: true),
                    ExhaustMean = table.Column<double>(type: "double precision", nullable: true),
                    ExhaustSpread = table.Column<double>(type: "double precision", nullable: true)
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
                    EngineId = table.Column<Guid>(type: "uuid", nullable: false),
                    Changes = table.Column<int>(type: "integer", nullable: false),
                    CardVersion = table.Column<int>(type: "integer", nullable: false),
                    RatesVersion = table.Column<int>(type: "integer", nullable: false),
                    SettingsMark = table.Column<string>(type: "text", nullable: false),
                    Checks = table.Column<int>(type: "integer", nullable: false),
                    Clock = table.Column<double>(type: "double precision", nullable: false),
                    LastClock = table.Column<double>(type: "double precision", nullable: false),
                    LastAt = table.Column<long>(type: "bigint", nullable: false),
                    CheckBy = table.Column<double>(type: "double precision", nullable: true),
                    CountsKilometres = table.Column<bool>(type: "boolean", nullable: false),
                    PerWeek = table.Column<double>(type: "double precision", nullable: true),
                    Usage = table.Column<int>(type: "integer", nullable: false),
                    DueAt = table.Column<long>(type: "bigint", nullable: true),
                    Risk = table.Column<double>(type: "double precision", nullable: false),
                    Curve = table.Column<string>(type: "text", nullable: false),
                    IntakeEvidence = table.Column<string>(type: "text", nullable: false),
                    ExhaustEvidence = table.Column<string>(type: "text", nullable: false)
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
