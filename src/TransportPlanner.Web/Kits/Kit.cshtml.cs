using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.Kits;
using TransportPlanner.Core.Precautions;

namespace TransportPlanner.Web.Kits;

/// <summary>What the kit page asks, as typed.</summary>
public sealed class KitForm
{
    public RespiratorySupport? Support { get; set; }
    public bool Airborne { get; set; }
    public bool Droplet { get; set; }
    public bool Contact { get; set; }
    public string? WeightGrams { get; set; }
    public string? GestationWeeks { get; set; }
    public string? JourneyMinutes { get; set; } = "15";

    public PrecautionSet Precautions =>
        (Airborne ? PrecautionSet.Airborne : 0) | (Droplet ? PrecautionSet.Droplet : 0) | (Contact ? PrecautionSet.Contact : 0);
}

/// <summary>The kit alone. Posted, so that no clinical input stands in an address or a log.</summary>
public sealed class KitModel : PageModel
{
    [BindProperty]
    public KitForm Form { get; set; } = new();
    public IReadOnlyList<EntryProblem> Problems { get; private set; } = [];
    public KitResponse? Kit { get; private set; }
    public string PrecautionWords => Form.Precautions.ToString().ToLowerInvariant();

    public void OnPost()
    {
        var entries = new Entries();
        var weight = entries.Whole("WeightGrams", "Weight", Form.WeightGrams, KitQuery.MinWeightGrams, KitQuery.MaxWeightGrams, "g");
        var gestation = entries.Whole("GestationWeeks", "Gestation", Form.GestationWeeks, KitQuery.MinGestationWeeks, KitQuery.MaxGestationWeeks, "weeks");
        var journey = entries.Whole("JourneyMinutes", "Journey", Form.JourneyMinutes, KitQuery.MinJourneyMinutes, KitQuery.MaxJourneyMinutes, "minutes");
        entries.Need("JourneyMinutes", journey is not null || entries.Has("JourneyMinutes"), "Give the journey in minutes, door to door.");
        entries.Need("Support", Form.Support is not null, "Choose the breathing support.");
        entries.Need("Precautions", Form.Precautions != PrecautionSet.None, "Choose at least one precaution.");
        Problems = entries.Problems;
        if (Problems.Count == 0)
        {
            Kit = KitResponse.From(
                KitList.For(new KitQuery
                {
                    WeightGrams = weight,
                    GestationWeeks = gestation,
                    Support = Form.Support!.Value,
                    Precautions = Form.Precautions,
                    JourneyMinutes = journey!.Value,
                }),
                ProtectiveWear.For(Form.Precautions));
        }
    }
}
