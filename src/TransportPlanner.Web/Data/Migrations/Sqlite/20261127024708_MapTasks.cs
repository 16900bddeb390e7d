using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TransportPlanner.Web.Data.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class MapTasks : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "published_by",
                table: "floor_plans",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "map_tasks",
                columns: table => new
                {
                    id = table.Column<string>(type: "TEXT", nullable: false),
                    site_id = table.Column<string>(type: "TEXT", nullable: false),
                    target = table.Column<string>(type: "TEXT", nullable: false),
                    target_id = table.Column<string>(type: "TEXT", nullable: false),
                    text = table.Column<string>(type: "TEXT", nullable: false),
                    reported_by = table.Column<string>(type: "TEXT", nullable: false),
                    reported_at = table.Column<long>(type: "INTEGER", nullable: false),
                    floor_plan_version = table.Column<int>(type: "INTEGER", nullable: false),
                    done_at = table.Column<long>(type: "INTEGER", nullable: true),
                    done_by = table.Column<string>(type: "TEXT", nullable: true),
                    done_how = table.Column<string>(type: "TEXT", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_map_tasks", x => x.id);
                    table.ForeignKey(
                        name: "FK_map_tasks_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_map_tasks_site_id_done_at",
                table: "map_tasks",
                columns: new[] { "site_id", "done_at" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "map_tasks");

            migrationBuilder.DropColumn(
                name: "published_by",
                table: "floor_plans");
        }
    }
}
