namespace TransportPlanner.Web.Tests.Browser;

public sealed record Viewport(int Width, int Height, bool Touch)
{
    public static readonly Viewport Desktop = new(1440, 900, Touch: false);
    public static readonly Viewport Tablet = new(820, 1180, Touch: true);
    public static readonly Viewport Phone = new(390, 844, Touch: true);

    /// <summary>The width at which WCAG 2.2 criterion 1.4.10 (Reflow) asks for no sideways scrolling.</summary>
    public static readonly Viewport Narrowest = new(320, 640, Touch: true);
}

/// <summary>How a page is looked at.</summary>
public sealed record Look(Viewport Viewport, bool Dark = false, bool Script = true)
{
    public static readonly Dictionary<string, Look> Named = new()
    {
        ["desktop"] = new(Viewport.Desktop),
        ["desktop-dark"] = new(Viewport.Desktop, Dark: true),
        ["tablet"] = new(Viewport.Tablet),
        ["phone"] = new(Viewport.Phone),
        ["narrowest"] = new(Viewport.Narrowest),
        ["without-script"] = new(Viewport.Desktop, Script: false),
    };
}
