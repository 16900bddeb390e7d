using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TransportPlanner.Web.Data.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class PlansInForce : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<long>(
                name: "depart_at",
                table: "plans",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0L);

            migrationBuilder.AddColumn<long>(
                name: "void_after",
                table: "plans",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0L);

            // Filled from the plans themselves, so that those of an earlier release count as well.
            migrationBuilder.Sql(
                """
                UPDATE plans SET
                  depart_at = COALESCE((SELECT CAST(ROUND((julianday(json_extract(v.snapshot, '$.routes.departAt')) - 2440587.5) * 86400000.0) AS INTEGER)
                    FROM plan_versions v WHERE v.plan_id = plans.id AND v.number = plans.current_version), 0),
                  void_after = COALESCE((SELECT CAST(ROUND((julianday(json_extract(v.snapshot, '$.voidAfter')) - 2440587.5) * 86400000.0) AS INTEGER)
                    FROM plan_versions v WHERE v.plan_id = plans.id AND v.number = plans.current_version), 0);
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
