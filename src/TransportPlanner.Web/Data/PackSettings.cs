using System.Text.Json;
using static TransportPlanner.Web.Data.SettingKinds;

namespace TransportPlanner.Web.Data;

/// <summary>What a site calls its roles and whom it calls: words on the printed cards. A title names a role, never a person.</summary>
internal static class PackSettings
{
    public static readonly Setting<string> TeamLead = Title("teamLeadTitle", "team lead");
    public static readonly Setting<string> RespiratoryTherapist = Title("respiratoryTherapistTitle", "respiratory therapist");
    public static readonly Setting<string> TransportNurse = Title("transportNurseTitle", "transport nurse");
    public static readonly Setting<string> CleanHelper = Title("cleanHelperTitle", "clean helper");
    public static readonly Setting<string> ReceivingNurse = Title("receivingNurseTitle", "receiving nurse");
    public static readonly Setting<string> EnvironmentalServices = Title("environmentalServicesTitle", "environmental services");
    public static readonly Setting<string> DoffingWatcher = Title("doffingWatcherTitle", "watcher");
    public static readonly Setting<string> Security = Title("securityTitle", "security");

    public static readonly Setting<string?> ElevatorRescueNumber = Text("elevatorRescueNumber", null, "Number to call from a stalled car, printed on the card for it; null: a blank line to write it on.");
    public static readonly Setting<string?> SecurityContact = Text("securityContact", null, "Radio channel or number of security, printed on the cards; null: a blank line to write it on.");

    /// <summary>Every setting of this page, in the order in which it is shown.</summary>
    public static readonly IReadOnlyList<Setting> All =
    [
        TeamLead, RespiratoryTherapist, TransportNurse, CleanHelper, ReceivingNurse, EnvironmentalServices, DoffingWatcher, Security,
        ElevatorRescueNumber, SecurityContact,
    ];

    private static Setting<string> Title(string name, string assumed) => new()
    {
        Name = name,
        Unit = "",
        Assumed = assumed,
        Description = $"What the site calls the {assumed} on the printed cards: a role, never a person's name.",
        Allowed = "text of 1 to 40 characters in one line",
        Parse = json => json.ValueKind == JsonValueKind.String && json.GetString() is { Length: >= 1 and <= 40 } text
            && text.Trim().Length == text.Length && !text.Any(char.IsControl) ? (true, text) : default,
    };
}
