using System.Text.RegularExpressions;
using ZXing;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>Reads a code from the path that a page draws, by a library that did not draw it.</summary>
internal static partial class QrReader
{
    private const int PixelsAModule = 4;

    public static Result Read(int side, string path)
    {
        var pixels = Enumerable.Repeat((byte)255, side * side * PixelsAModule * PixelsAModule).ToArray();
        foreach (var module in Modules().Matches(path).Select(m => (X: int.Parse(m.Groups[1].ValueSpan), Y: int.Parse(m.Groups[2].ValueSpan))))
        {
            for (var row = 0; row < PixelsAModule; row++)
            {
                pixels.AsSpan(((module.Y * PixelsAModule + row) * side + module.X) * PixelsAModule, PixelsAModule).Clear();
            }
        }

        var reader = new BarcodeReaderGeneric();
        return reader.Decode(new RGBLuminanceSource(pixels, side * PixelsAModule, side * PixelsAModule, RGBLuminanceSource.BitmapFormat.Gray8));
    }

    [GeneratedRegex(@"M(\d+) (\d+)h1v1h-1z")]
    private static partial Regex Modules();
}
