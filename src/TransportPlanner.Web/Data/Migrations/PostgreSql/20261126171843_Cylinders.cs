using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TransportPlanner.Web.Data.Migrations.PostgreSql
{
    /// <inheritdoc />
    public partial class Cylinders : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "cylinder_sizes",
                columns: table => new
                {
                    site_id = table.Column<string>(type: "text", nullable: false),
                    id = table.Column<string>(type: "text", nullable: false),
                    gas = table.Column<string>(type: "text", nullable: false),
                    label_litres = table.Column<decimal>(type: "numeric", nullable: false),
                    full_pressure = table.Column<decimal>(type: "numeric", nullable: false),
                    unit = table.Column<string>(type: "text", nullable: false),
                    water_litres = table.Column<decimal>(type: "numeric", nullable: true),
                    test_gauge = table.Column<decimal>(type: "numeric", nullable: false),
                    test_litres = table.Column<decimal>(type: "numeric", nullable: false),
                    source = table.Column<string>(type: "text", nullable: false),
                    entered_by = table.Column<string>(type: "text", nullable: false),
                    entered_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    confirmed_by = table.Column<string>(type: "text", nullable: true),
                    confirmed_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    version = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_cylinder_sizes", x => new { x.site_id, x.id });
                    table.ForeignKey(
                        name: "FK_cylinder_sizes_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "shelf",
                columns: table => new
                {
                    id = table.Column<string>(type: "text", nullable: false),
                    site_id = table.Column<string>(type: "text", nullable: false),
                    tag = table.Column<string>(type: "text", nullable: false),
                    cylinder = table.Column<string>(type: "text", nullable: false),
                    read_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    read_by = table.Column<string>(type: "text", nullable: false),
                    version = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_shelf", x => x.id);
                    table.ForeignKey(
                        name: "FK_shelf_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "flow_checks",
                columns: table => new
                {
                    id = table.Column<string>(type: "text", nullable: false),
                    cylinder_id = table.Column<string>(type: "text", nullable: false),
                    at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    first_role = table.Column<string>(type: "text", nullable: false),
                    second_role = table.Column<string>(type: "text", nullable: false),
                    cap_off = table.Column<bool>(type: "boolean", nullable: false),
                    valve_open = table.Column<bool>(type: "boolean", nullable: false),
                    flow_set = table.Column<bool>(type: "boolean", nullable: false),
                    flow_felt = table.Column<bool>(type: "boolean", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_flow_checks", x => x.id);
                    table.ForeignKey(
                        name: "FK_flow_checks_shelf_cylinder_id",
                        column: x => x.cylinder_id,
                        principalTable: "shelf",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_flow_checks_cylinder_id_at",
                table: "flow_checks",
                columns: new[] { "cylinder_id", "at" });

            migrationBuilder.CreateIndex(
                name: "IX_shelf_site_id_tag",
                table: "shelf",
                columns: new[] { "site_id", "tag" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "cylinder_sizes");

            migrationBuilder.DropTable(
                name: "flow_checks");

            migrationBuilder.DropTable(
                name: "shelf");
        }
    }
}
