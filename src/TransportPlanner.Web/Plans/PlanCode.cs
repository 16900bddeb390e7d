using System.Globalization;
using System.Text;
using QRCoder;

namespace TransportPlanner.Web.Plans;

/// <summary>A QR code for the head of a printed sheet. It holds the plan's id and nothing else: no address, nothing of the infant.</summary>
public static class PlanCode
{
    /// <summary>Modules on each side, the quiet zone included.</summary>
    public static int Side(string id) => Matrix(id).Count;

    /// <summary>The dark modules as one SVG path, a unit square each, in a box of <see cref="Side"/> units.</summary>
    public static string Path(string id)
    {
        var rows = Matrix(id);
        var path = new StringBuilder();
        for (var y = 0; y < rows.Count; y++)
        {
            for (var x = 0; x < rows.Count; x++)
            {
                if (rows[y][x])
                {
                    path.Append(CultureInfo.InvariantCulture, $"M{x} {y}h1v1h-1z");
                }
            }
        }

        return path.ToString();
    }

    // Level M restores 15 % of the modules: a fold or a thumb of gel.
    private static List<System.Collections.BitArray> Matrix(string id)
    {
        using var data = QRCodeGenerator.GenerateQrCode(id, QRCodeGenerator.ECCLevel.M);
        return data.ModuleMatrix;
    }
}
