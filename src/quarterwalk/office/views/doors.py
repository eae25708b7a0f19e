"""In and out: sign-in, sign-out, a password, and the links that let people in."""

from __future__ import annotations

from http import HTTPStatus

from allauth.account.views import AccountInactiveView, LoginView, LogoutView
from django.contrib import messages
from django.contrib.auth import login, update_session_auth_hash
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_safe

from quarterwalk.office.forms.doors import JoinForm, PasswordForm, SignInForm
from quarterwalk.office.pages.doors import join_page, password_page, spent_link
from quarterwalk.office.services import people
from quarterwalk.office.views.show import SIGN_IN, sent, show, signed_in


class _SignIn(LoginView):  # type: ignore[misc]  # it has no types
    """Allauth's sign-in, with its limits on attempts, in the office's own words."""

    template_name = "doors/sign_in.html"
    form_class = SignInForm

    def get_form_class(self) -> type[SignInForm]:
        return SignInForm

    def form_invalid(self, form: SignInForm) -> HttpResponse:
        context = self.get_context_data(form=form)
        status = HTTPStatus.UNPROCESSABLE_ENTITY
        answer: HttpResponse = self.render_to_response(context, status=status)
        return answer


sign_in = _SignIn.as_view()
sign_out = LogoutView.as_view(template_name="doors/sign_out.html")
inactive = AccountInactiveView.as_view(template_name="doors/inactive.html")


@sensitive_post_parameters()
@require_http_methods(["GET", "POST"])
def password(request: HttpRequest) -> HttpResponse:
    """Change one's own password."""
    form = PasswordForm(signed_in(request), sent(request))
    if form.is_valid():
        form.save()
        update_session_auth_hash(request, form.user)
        messages.success(request, "Your password is changed.")
        return redirect("fields")
    return show(request, "doors/password.html", password_page(), form)


@login_not_required
@never_cache
@sensitive_post_parameters()
@require_http_methods(["GET", "POST"])
def join(request: HttpRequest, token: str) -> HttpResponse:
    """Let somebody in by a link: once, to choose a password; in the demo as they are."""
    link = people.use_link(token)
    if link is None:
        return show(request, "doors/spent.html", spent_link())
    if link.lasting:
        login(request, link.person, backend=SIGN_IN)
        return redirect("fields")
    form = JoinForm(link.person, sent(request))
    if form.is_valid():
        people.choose_password(link=link, password=form.cleaned_data["new_password1"])
        login(request, link.person, backend=SIGN_IN)
        return redirect("fields")
    return show(request, "doors/join.html", join_page(link), form)


@login_not_required
@require_safe
def healthy(request: HttpRequest) -> HttpResponse:
    """Say that the office answers."""
    return HttpResponse("ok", content_type="text/plain")
