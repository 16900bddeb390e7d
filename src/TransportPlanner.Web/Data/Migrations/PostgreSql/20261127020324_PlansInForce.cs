using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TransportPlanner.Web.Data.Migrations.PostgreSql
{
    /// <inheritdoc />
    public partial class PlansInForce : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<DateTimeOffset>(
                name: "depart_at",
                table: "plans",
                type: "timestamp with time zone",
                nullable: false,
                defaultValue: new DateTimeOffset(new DateTime(1, 1, 1, 0, 0, 0, 0, DateTimeKind.Unspecified), new TimeSpan(0, 0, 0, 0, 0)));

            migrationBuilder.AddColumn<DateTimeOffset>(
                name: "void_after",
                table: "plans",
                type: "timestamp with time zone",
                nullable: false,
                defaultValue: new DateTimeOffset(new DateTime(1, 1, 1, 0, 0, 0, 0, DateTimeKind.Unspecified), new TimeSpan(0, 0, 0, 0, 0)));

            // Filled from the plans themselves, so that those of an earlier release count as well.
            migrationBuilder.Sql(
                """
                UPDATE plans SET
                  depart_at = COALESCE((v.snapshot::jsonb #>> '{routes,departAt}')::timestamptz, depart_at),
                  void_after = COALESCE((v.snapshot::jsonb ->> 'voidAfter')::timestamptz, void_after)
                FROM plan_versions v WHERE v.plan_id = plans.id AND v.number = plans.current_version;
                """);

            migrationBuilder.CreateIndex(
                name: "IX_plans_site_id_void_after",
                table: "plans",
                columns: new[] { "site_id", "void_after" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_plans_site_id_void_after",
                table: "plans");

            migrationBuilder.DropColumn(
                name: "depart_at",
                table: "plans");

            migrationBuilder.DropColumn(
                name: "void_after",
                table: "plans");
        }
    }
}
