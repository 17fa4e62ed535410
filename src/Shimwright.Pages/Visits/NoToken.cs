using Microsoft.AspNetCore.Components.Forms;

namespace Shimwright.Pages.Visits;

/// <summary>A form that never leaves the device that it was made on needs no token against forgery.</summary>
internal sealed class NoToken : AntiforgeryStateProvider
{
    public override AntiforgeryRequestToken? GetAntiforgeryToken() => null;
}
