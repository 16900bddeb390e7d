using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Tests.Data;

public sealed class CleanupTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    [Fact]
    public async Task The_running_application_drops_weight_and_gestation_after_a_day()
    {
        using var scope = application.Services.CreateScope();
        var context = scope.ServiceProvider.GetRequiredService<PlannerContext>();
        var plan = new StoredPlan { Id = RandomId.New(), CallSign = "Silver Heron", SiteId = "demonstration", CreatedAt = PlannerApplication.Start, CurrentVersion = 1 };
        context.AddRange(plan, new ClinicalInput { PlanId = plan.Id, WeightGrams = 1850, GestationWeeks = 32, EnteredAt = PlannerApplication.Start });
        await context.SaveChangesAsync();

        application.Time.Advance(TimeSpan.FromHours(23));
        await Task.Delay(200);
        Assert.Equal(1, await context.ClinicalInputs.CountAsync());

        application.Time.Advance(TimeSpan.FromHours(1) + Cleanup.Interval);
        for (var i = 0; i < 100 && await context.ClinicalInputs.AnyAsync(); i++)
        {
            await Task.Delay(50);
        }

        Assert.Equal(0, await context.ClinicalInputs.CountAsync());
        Assert.Equal(1, await context.Plans.CountAsync());
    }
}
