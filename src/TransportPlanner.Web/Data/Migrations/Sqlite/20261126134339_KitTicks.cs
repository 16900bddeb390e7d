using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TransportPlanner.Web.Data.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class KitTicks : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "kit_ticks",
                columns: table => new
                {
                    plan_id = table.Column<string>(type: "TEXT", nullable: false),
                    item_id = table.Column<string>(type: "TEXT", nullable: false),
                    plan_version = table.Column<int>(type: "INTEGER", nullable: false),
                    state = table.Column<string>(type: "TEXT", nullable: false),
                    reason = table.Column<string>(type: "TEXT", nullable: true),
                    first_role = table.Column<string>(type: "TEXT", nullable: true),
                    first_at = table.Column<long>(type: "INTEGER", nullable: true),
                    second_role = table.Column<string>(type: "TEXT", nullable: true),
                    second_at = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_kit_ticks", x => new { x.plan_id, x.item_id });
                    table.ForeignKey(
                        name: "FK_kit_ticks_plans_plan_id",
                        column: x => x.plan_id,
                        principalTable: "plans",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "kit_ticks");
        }
    }
}
