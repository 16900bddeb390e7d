using System.Text.RegularExpressions;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>
/// What a space is for, from its class and its name. Classes are those of OmniClass table 13, <i>Spaces by Function</i> (2012), as a
/// public handover workbook of a clinic uses them; the words are common practice. What a word says goes before the class, since a table of
/// offices and corridors knows no delivery room.
/// </summary>
internal static partial class PlaceWords
{
    private static readonly (string Code, PlaceKind Kind)[] Classes =
    [
        ("13-85 11", PlaceKind.Corridor),
        ("13-85 21", PlaceKind.Stairwell),
        ("13-85 31", PlaceKind.Lobby),
        ("13-51 31", PlaceKind.WaitingArea),
        ("13-11 11 31", PlaceKind.Lobby),
        ("13-15 11 34", PlaceKind.Office),
        ("13-41 11 14", PlaceKind.Sanitary),
        ("13-41 41 31", PlaceKind.Imaging),
        ("13-75", PlaceKind.Utility),
        ("13-81", PlaceKind.Utility),
    ];

    private static readonly (Regex Words, PlaceKind Kind)[] Names =
    [
        (Sanitary(), PlaceKind.Sanitary),
        (Landing(), PlaceKind.ElevatorLanding),
        (Stairs(), PlaceKind.Stairwell),
        (Anteroom(), PlaceKind.Anteroom),
        (Isolation(), PlaceKind.IsolationRoom),
        (Delivery(), PlaceKind.DeliveryRoom),
        (Operating(), PlaceKind.OperatingRoom),
        (Intensive(), PlaceKind.NeonatalIntensiveCare),
    ];

    private static readonly (Regex Words, PlaceKind Kind)[] Fallbacks =
    [
        (Corridor(), PlaceKind.Corridor),
        (Waiting(), PlaceKind.WaitingArea),
        (Lobby(), PlaceKind.Lobby),
        (Office(), PlaceKind.Office),
    ];

    internal static PlaceKind KindOf(RecordedSpace space)
    {
        foreach (var (words, kind) in Names)
        {
            if (words.IsMatch(space.Name))
            {
                return kind;
            }
        }

        foreach (var (code, kind) in Classes)
        {
            if (space.Category.StartsWith(code, StringComparison.Ordinal))
            {
                return kind;
            }
        }

        var text = $"{space.Name} {space.Category}";
        return Fallbacks.FirstOrDefault(word => word.Words.IsMatch(text)) is { Words: not null } found ? found.Kind : PlaceKind.Room;
    }

    /// <summary>Kinds that a plan is made for: somebody must confirm what a word in a file made of them.</summary>
    internal static bool Matters(PlaceKind kind) =>
        kind is PlaceKind.IsolationRoom or PlaceKind.DeliveryRoom or PlaceKind.OperatingRoom or PlaceKind.NeonatalIntensiveCare or PlaceKind.Anteroom;

    /// <summary>Where people pass through, so that two of them may meet without a door.</summary>
    internal static bool IsCirculation(PlaceKind kind) =>
        kind is PlaceKind.Corridor or PlaceKind.Ramp or PlaceKind.LinkBridge or PlaceKind.Lobby or PlaceKind.WaitingArea or PlaceKind.ElevatorLanding;

    /// <summary>A member of a closed list as people write it: <c>isolation room</c>.</summary>
    internal static string Spaced<T>(T member) where T : struct, Enum =>
        string.Concat(member.ToString().Select((c, i) => char.IsUpper(c) ? (i == 0 ? "" : " ") + char.ToLowerInvariant(c) : $"{c}"));

    /// <summary>The shaft or the car, not the machine room and not the lobby in front.</summary>
    internal static bool IsShaft(RecordedSpace space) =>
        space.Category.StartsWith("13-81 21 31", StringComparison.Ordinal) || Shaft().IsMatch(space.Name);

    [GeneratedRegex(@"\b(toilet|wc|restroom|bathroom|shower|lavatory)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Sanitary();

    [GeneratedRegex(@"\b(elev(ator)?|lift)s?\b.*\b(lobby|landing|hall|vestibule)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Landing();

    [GeneratedRegex(@"^\s*(stair(s|way|well|case)?)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Stairs();

    [GeneratedRegex(@"\b(ante-?room|airlock)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Anteroom();

    [GeneratedRegex(@"\b(isolation|aiir)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Isolation();

    [GeneratedRegex(@"\b(delivery|labou?r|birth(ing)?) (room|suite)\b|\bldrp?\b", RegexOptions.IgnoreCase)]
    private static partial Regex Delivery();

    [GeneratedRegex(@"\boperating (room|theat(re|er))\b", RegexOptions.IgnoreCase)]
    private static partial Regex Operating();

    [GeneratedRegex(@"\b(nicu|neonatal intensive)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Intensive();

    [GeneratedRegex(@"\b(corridor|hallway|passage(way)?|circulation)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Corridor();

    [GeneratedRegex(@"\bwaiting\b", RegexOptions.IgnoreCase)]
    private static partial Regex Waiting();

    [GeneratedRegex(@"\b(lobby|vestibule|reception|foyer|entrance hall)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Lobby();

    [GeneratedRegex(@"\boffice\b", RegexOptions.IgnoreCase)]
    private static partial Regex Office();

    [GeneratedRegex(@"^\s*(elev(ator)?|lift)( *(shaft|hoistway|car|no\.?|\d+|[a-z]))*\s*$", RegexOptions.IgnoreCase)]
    private static partial Regex Shaft();
}
