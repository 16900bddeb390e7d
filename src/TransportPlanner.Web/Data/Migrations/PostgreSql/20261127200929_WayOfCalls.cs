using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TransportPlanner.Web.Data.Migrations.PostgreSql
{
    /// <inheritdoc />
    public partial class WayOfCalls : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "way",
                table: "calls",
                type: "text",
                nullable: false,
                defaultValue: "");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "way",
                table: "calls");
        }
    }
}
